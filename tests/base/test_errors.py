import pytest

from thruline.base import errors


@pytest.mark.parametrize(
    ("kind", "code"), [(errors.CannotUse, 2), (errors.WorldFailed, 3), (errors.ThrulineError, 2)]
)
def test_every_error_has_words_and_an_exit_code(
    kind: type[errors.ThrulineError], code: int
) -> None:
    trouble = kind("line.rig.toml, row 3: there is no unit dealy")
    assert trouble.exit_code == code
    assert trouble.says == str(trouble) == "line.rig.toml, row 3: there is no unit dealy"


def test_the_exit_codes_are_four_different_numbers() -> None:
    codes = [value for name, value in vars(errors).items() if name.startswith("EXIT_")]
    assert sorted(codes) == [0, 1, 2, 3]
