import click
import pytest
from click.testing import CliRunner

from thruline.base.errors import CannotUse
from thruline.cli.given import OneOf


@click.command()
@click.argument("which", type=OneOf("sheet", ["settings", "cables"]))
def asked(which: str) -> None:
    """Say what was given."""
    click.echo(which)


def given(word: str) -> str:
    return CliRunner().invoke(asked, [word], catch_exceptions=False).output


def test_a_word_of_the_list_is_taken():
    assert given("cables") == "cables\n"


@pytest.mark.parametrize(
    ("word", "hint"),
    [("setings", 'did you mean "settings"?'), ("xyzzy", "there are: settings, cables")],
)
def test_another_is_told_with_the_nearest_or_with_all(word, hint):
    with pytest.raises(CannotUse) as told:
        given(word)
    assert str(told.value) == f'there is no sheet "{word}"; {hint}'
