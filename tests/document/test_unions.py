from typing import Annotated, Literal

import pytest
from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag, ValidationError

from thruline.document.unions import NO_SHAPE, misfits


class Table(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True)


class Wide(Table):
    low: int
    high: int


class Narrow(Table):
    at: int


def shape_of(value):
    return "wide" if "low" in value else None


class Whole(Table):
    either: Wide | Narrow | str | None = None
    inner: list[Wide | list[int | str]] | None = None
    named: dict[Annotated[str, Field(max_length=2)], int] = {}
    called: (
        Annotated[
            Annotated[Wide, Tag("wide")] | Annotated[Narrow, Tag("narrow")],
            Discriminator(shape_of),
        ]
        | None
    ) = None
    word: Annotated[int, Field(ge=0)] | Literal["on"] | bool = True


def found(data):
    with pytest.raises(ValidationError) as error:
        Whole.model_validate(data)
    return [(one.kind, one.trail) for one in misfits(error.value.errors(), data)]


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        ({"either": 3}, [(NO_SHAPE, ("either",))]),
        ({"either": {"low": 1}}, [("missing", ("either", "high"))]),
        ({"either": {"at": "x"}}, [("int_type", ("either", "at"))]),
        ({"either": {"low": 1, "high": "a"}}, [("int_type", ("either", "high"))]),
        ({"inner": [3]}, [(NO_SHAPE, ("inner", 0))]),
        ({"inner": [[1, "a", 1.5]]}, [(NO_SHAPE, ("inner", 0, 2))]),
        ({"inner": [{"low": 1, "high": 2, "x": 3}]}, [("extra_forbidden", ("inner", 0, "x"))]),
        ({"named": {"long": 1}}, [("string_too_long", ("named", "long"))]),
        ({"called": {"low": 1}}, [("missing", ("called", "high"))]),
        ({"called": {"at": 1}}, [(NO_SHAPE, ("called",))]),
        ({"word": -1}, [("greater_than_equal", ("word",))]),
        ({"word": "off"}, [(NO_SHAPE, ("word",))]),
        (
            {"either": 3, "named": {"a": "x"}},
            [("int_type", ("named", "a")), (NO_SHAPE, ("either",))],
        ),
    ],
)  # fmt: skip
def test_one_misfit_for_each_value(data, expected):
    assert found(data) == expected


def test_a_key_is_told_from_its_value():
    data = {"named": {"long": 1}}
    with pytest.raises(ValidationError) as error:
        Whole.model_validate(data)
    assert [one.of_key for one in misfits(error.value.errors(), data)] == [True]


def test_no_errors_no_misfits():
    assert misfits([], {}) == []
