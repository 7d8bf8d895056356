import click
import pytest
from click.testing import CliRunner

from thruline.base.errors import CannotUse
from thruline.cli.given import A_FILE, Amount, OneOf, refuse_with_capture


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


@click.command()
@click.argument("much", type=Amount(min=1))
@click.argument("file", type=A_FILE)
def measured(much: float, file: str) -> None:
    """Say what was given."""
    click.echo(f"{much:.1f} {file}")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("2", "a"), "2.0 a\n"),
        (("0.5", "a"), "0.5 is not in the range x>=1"),
        (("nan", "a"), "nan is no amount; write a number"),
        (("inf", "a"), "inf is no amount; write a number"),
        (("2", " "), "a file has a name, and this is empty"),
    ],
)
def test_an_amount_is_a_number_and_a_file_has_a_name(words, says):
    assert says in CliRunner().invoke(measured, words).output


def test_what_is_for_ports_only_is_refused_with_a_capture():
    refuse_with_capture(("--log", None), ("--for", None))
    with pytest.raises(CannotUse, match="--for is for listening to a port"):
        refuse_with_capture(("--log", None), ("--for", 2.0))
