from collections.abc import Iterator

import click
import pytest
from click.testing import CliRunner

from thruline.base.errors import CannotUse
from thruline.cli.given import A_FILE, Amount, FileName, OneOf, seconds
from thruline.cli.main import COMMANDS, main


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


@pytest.mark.parametrize("word", ["nan", "inf", "-inf", "-NaN", "Infinity", "1e400", "x", "0.1"])
def test_what_is_no_amount_is_refused(word):
    for kind in (Amount(0.2, 60), seconds(0.2)):
        with pytest.raises(click.BadParameter):
            kind.convert(word, None, None)


def test_an_amount_is_taken():
    assert Amount(0.2, 60).convert("4", None, None) == 4
    assert seconds(0).convert("604800", None, None) == 604_800


def test_no_command_takes_a_number_that_is_none():
    found = [one for name in COMMANDS for one in every_option(command(main, name))]
    loose = [one for one in found if isinstance(one.type, click.types.FloatParamType)]
    assert loose
    assert {type(one.type) for one in loose} == {Amount}


def test_a_file_without_a_name_is_told():
    with pytest.raises(CannotUse, match="a file has a name, and this is empty"):
        A_FILE.convert("", None, None)
    assert A_FILE.convert("a.rig.toml", None, None) == "a.rig.toml"


def test_every_file_of_every_command_is_looked_at_by_what_reads_it():
    found = [one for name in COMMANDS for one in every_option(command(main, name))]
    assert {type(one.type) for one in found if isinstance(one.type, click.Path)} == {FileName}


def command(group: click.Group, name: str) -> click.Command:
    found = group.get_command(click.Context(group), name)
    assert found is not None
    return found


def every_option(one: click.Command) -> Iterator[click.Parameter]:
    yield from one.params
    if isinstance(one, click.Group):
        for name in one.list_commands(click.Context(one)):
            yield from every_option(command(one, name))
