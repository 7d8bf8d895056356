"""The command line as a whole. Each command is imported only when it is run."""

import difflib
import importlib
from collections.abc import Mapping, Sequence

import click

from thruline import __version__
from thruline.base.errors import (
    EXIT_CANNOT_USE,
    EXIT_WORLD_FAILED,
    CannotUse,
    ThrulineError,
)
from thruline.cli.memory import settle_memory
from thruline.cli.show import complain, flush_output, give_output_up, say, settle_output

COMMANDS: Mapping[str, str] = {
    "demo": "Prove a rig as it was found, mend it step by step, and show the result.",
    "new": "Write a rig document to start from.",
    "prove": "Prove a rig: does it arrive, is it understood, in time, and always the same?",
    "mend": "List the mends of what the proof found, and apply some or all safe ones.",
    "plan": "Plan channels, power or cables: the best there is, and why.",
    "sheet": "One paper: settings, programming, cables, labels, power and others.",
    "export": "Presets and sweeps as MIDI files or raw bytes, with the timing of the line.",
    "book": "All papers of a rig as one PDF, with the rig itself inside.",
    "open": "Put the rig inside a book on the disk again: its document and its charts.",
    "trace": "Follow one preset, message by message, through the rig.",
    "find": "Look for the one thing that is wrong, question by question.",
    "compare": "From one revision of a rig to another, as a work order.",
    "workbench": "Work on a rig in a browser: plan, program and prove it on pages.",
    "send": "Send a preset or a sweep to the units, as the controller would.",
    "ports": "List the MIDI ports of this computer.",
    "listen": "Show in words what comes in on MIDI ports, and keep it as a capture.",
    "audit": "Hold what a controller really sends against the plan, and find the likeliest cause.",
    "learn": "Write a rig document from what an undocumented controller sends.",
    "clock": "Measure the MIDI clock that comes in, or make one.",
    "identify": "Ask who is there, and hold the answers against the charts.",
    "backup": "Receive a unit's memory as it dumps it, check it, and keep it.",
    "restore": "Send a backup into its unit again, once you have named the unit.",
    "pretend": "Play a board that behaves as the model says, with mistakes to order.",
    "chart": "Show, list or check charts: each is of one model of unit.",
    "rules": "List the rules, or explain one.",
}
"""Every command and the sentence that describes it, in the order of the work."""

INTERRUPTED = 130
"""What a shell reports for a program that was stopped by Ctrl-C."""
READER_GONE = 141
"""What a shell reports for a program whose output nobody reads any more (`thruline ... | head`)."""


class _Commands(click.Group):
    """Commands looked up by name in `thruline.cli.commands`."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            meant = difflib.get_close_matches(cmd_name, COMMANDS, n=1)
            hint = f'; did you mean "{meant[0]}"?' if meant else "; `thruline --help` lists them"
            raise CannotUse(f'there is no command "{cmd_name}"{hint}')
        module = importlib.import_module(f"thruline.cli.commands.{cmd_name}")
        command: click.Command = module.command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


def _version(ctx: click.Context, _param: click.Parameter, value: bool) -> None:
    if value and not ctx.resilient_parsing:
        say(f"thruline {__version__}")
        ctx.exit()


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.option("--version", is_flag=True, expose_value=False, is_eager=True, callback=_version)
def main() -> None:
    """Plan, prove, program and repair a MIDI-controlled pedalboard.

    Exit code 0 when nothing is amiss, 1 when there are faults, 2 when what was given is of no use,
    3 when a file, a disk, a port or something else outside lets thruline down.
    """


def run(words: Sequence[str] | None = None) -> int:
    """Run the command line; returns the exit code. The one door where every trouble is caught."""
    settle_memory()
    settle_output()
    try:
        code = main.main(args=list(words) if words is not None else None, standalone_mode=False)
        flush_output()
    except ThrulineError as trouble:
        complain(trouble.says)
        return trouble.exit_code
    except click.ClickException as trouble:
        trouble.show()
        return EXIT_CANNOT_USE
    except (click.Abort, KeyboardInterrupt):
        complain("stopped")
        return INTERRUPTED
    except (BrokenPipeError, SystemExit):  # click turns the first into the second
        give_output_up()
        return READER_GONE
    except OSError as trouble:
        give_output_up()
        complain(f"the system failed: {trouble.strerror or trouble}")
        return EXIT_WORLD_FAILED
    return code if isinstance(code, int) else 0
