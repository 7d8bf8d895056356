import errno
import importlib
import os

import click
import pytest

import thruline
from tests.cli.running import ran
from thruline.base.errors import CannotUse, WorldFailed
from thruline.cli import main
from thruline.cli.main import COMMANDS


def raising(trouble):
    """A command that ends in trouble."""

    def act():
        raise trouble

    return click.Command("rules", callback=act)


def test_version(capsys):
    done = ran(capsys, "--version")
    assert (done.code, done.out) == (0, f"thruline {thruline.__version__}\n")


def test_help_lists_every_command_and_the_exit_codes(capsys):
    for words in (["--help"], ["-h"]):
        done = ran(capsys, *words)
        assert done.code == 0
        assert "Exit code 0 when nothing is amiss, 1 when there are faults" in done.out
        assert all(f"\n  {name} " in done.out for name in COMMANDS)


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_is_there_and_can_be_helped(capsys, name):
    assert importlib.import_module(f"thruline.cli.commands.{name}").command.name == name
    done = ran(capsys, name, "--help")
    assert done.code == 0
    assert done.out.startswith(f"Usage: main {name}") or f" {name} " in done.out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["prov"], 'there is no command "prov"; did you mean "prove"?'),
        (["xyzzy"], "`thruline --help` lists them"),
        (["prove"], "Missing argument"),
        (["prove", "--jsn", "a"], "--json"),
        (["chart", "shw"], "shw"),
        (["sheet", "a", "setings"], 'there is no sheet "setings"; did you mean "settings"?'),
        (["sheet", "a", "xyz"], 'there is no sheet "xyz"; there are: bring-up, faults, '),
        (["sheet", "a", "labels", "--paper", "a5"], 'no size of paper "a5"; did you mean "a4"?'),
        (["book", "a", "--part", "powr"], 'there is no part "powr"; did you mean "power"?'),
        (["find", "a", "--place", "stge"], 'there is no place "stge"; did you mean "stage"?'),
        ([], "Usage:"),
    ],
)
def test_words_that_cannot_be_understood(capsys, words, says):
    done = ran(capsys, *words)
    assert (done.code, done.out) == (2, "")
    assert says in done.err


@pytest.mark.parametrize(
    ("trouble", "code", "says"),
    [
        (CannotUse("a.rig.toml is not there"), 2, "a.rig.toml is not there\n"),
        (WorldFailed("a.rig.toml cannot be read"), 3, "a.rig.toml cannot be read\n"),
        (OSError(errno.ENOSPC, os.strerror(errno.ENOSPC)), 3, "the system failed: No space left"),
        (KeyboardInterrupt(), 130, "\nstopped\n"),
        (BrokenPipeError(), 141, ""),
    ],
)
def test_trouble_becomes_a_sentence_and_an_exit_code(capsys, monkeypatch, trouble, code, says):
    monkeypatch.setattr(
        importlib.import_module("thruline.cli.commands.rules"), "command", raising(trouble)
    )
    done = ran(capsys, "rules")
    assert (done.code, done.out) == (code, "")
    assert done.err.startswith(says)


def test_a_command_that_says_nothing_of_its_exit_code_is_clean(capsys, monkeypatch):
    quiet = click.Command("rules", callback=lambda: None)
    monkeypatch.setattr(importlib.import_module("thruline.cli.commands.rules"), "command", quiet)
    assert ran(capsys, "rules").code == 0


def test_commands_are_described_by_a_sentence():
    assert all(says.endswith((".", "?")) for says in main.COMMANDS.values())
