"""Every command: what it is called with, its options, and its exit codes."""

import importlib
import inspect
from collections.abc import Iterator

import click

from thruline.cli.main import COMMANDS, INTERRUPTED, READER_GONE
from tools.reference.rules import in_cell

HEAD = f"""\
# Every command

Made from the commands themselves; `thruline COMMAND --help` says the same.

With `--json` a command prints [one object](json.md) instead of text.
Colour is for terminals only, and `NO_COLOR` turns it off. Charts of your own lie in the folder
that `THRULINE_WORKSHOP` names, or else where your system keeps the data of programs.

| exit code | means |
|---|---|
| 0 | nothing is wrong |
| 1 | faults were found |
| 2 | what was given cannot be used: a document with problems, an unknown word |
| 3 | the world failed: a file cannot be read or written, a disk is full |
| {INTERRUPTED} | stopped from the keyboard |
| {READER_GONE} | nobody reads the output any more, as in `thruline rules \\| head -1` |
"""


def pages() -> Iterator[tuple[str, str]]:
    """One page with all commands in the order of the work."""
    told = [section(f"thruline {name}", command) for name, command in commands()]
    yield "commands.md", "\n".join([HEAD, *told])


def commands() -> Iterator[tuple[str, click.Command]]:
    """Every command by the words that call it; what a group holds follows the group."""
    for name in COMMANDS:
        command: click.Command = importlib.import_module(f"thruline.cli.commands.{name}").command
        yield name, command
        if isinstance(command, click.Group):
            yield from ((f"{name} {inner}", below) for inner, below in command.commands.items())


def section(called: str, command: click.Command) -> str:
    """One command: usage, what it does, arguments and options, exit codes."""
    parts = [f"## {called}", "", f"```text\n{usage(called, command)}\n```", "", says(command), ""]
    rows = [f"| `{forms(one)}` | {in_cell(one.help or '')} |" for one in options(command)]
    if rows:
        parts += ["| option | what it does |", "|---|---|", *rows, ""]
    if command.epilog:
        parts += [command.epilog, ""]
    return "\n".join(parts)


def usage(called: str, command: click.Command) -> str:
    """How a command is called, in one row."""
    with click.Context(command, info_name=called) as context:
        return " ".join([called, *command.collect_usage_pieces(context)])


def says(command: click.Command) -> str:
    """What a command does, in its own words."""
    return inspect.cleandoc(command.help or "").replace("\b", "")


def options(command: click.Command) -> list[click.Option]:
    """The options of a command, without the one for help."""
    return [one for one in command.params if isinstance(one, click.Option)]


def forms(option: click.Option) -> str:
    """The ways to write an option, with what it takes."""
    with click.Context(click.Command("x")) as context:
        record = option.get_help_record(context)
    return record[0] if record else "/".join(option.opts)
