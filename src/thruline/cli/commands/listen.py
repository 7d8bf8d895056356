"""`listen`: what is on the wire, in the rig's words."""

from collections.abc import Iterator
from typing import TypedDict, Unpack

import click

from thruline.app.listen import choice_of, lines_of, listen, listen_json, told_of
from thruline.base.errors import EXIT_CLEAN, CannotUse
from thruline.bench.listen import Session
from thruline.bench.telling import Choice, Teller, Told, told_row
from thruline.cli.given import A_FILE, WITH_A_PORT, refuse_idle, seconds
from thruline.cli.show import complain, flush_output, give_json, say
from thruline.proof.case import Case
from thruline.wiring import open_capture, open_file, open_inputs, open_log, time_of_day, wall_clock


class Wish(TypedDict):
    """What is asked for besides the rig."""

    port: tuple[str, ...]
    replay: str | None
    log: str | None
    only: tuple[str, ...]
    hide: tuple[str, ...]
    seconds: float | None
    without_bytes: bool
    as_json: bool


@click.command("listen", epilog="Exit code 0; 3 when there is no MIDI system or no such port.")
@click.argument("rig", type=A_FILE, required=False)
@click.option(
    "--port",
    multiple=True,
    metavar="[SOCKET=]PORT",
    help="A port to listen to, or several; before it the socket that it is plugged into.",
)
@click.option("--replay", type=A_FILE, metavar="FILE", help="A capture, in place of ports.")
@click.option("--log", type=A_FILE, metavar="FILE", help="Keep everything as a capture.")
@click.option("--only", multiple=True, metavar="WORD", help="Only this unit, line or kind.")
@click.option("--hide", multiple=True, metavar="WORD", help="Not this unit, line or kind.")
@click.option("--for", "seconds", type=seconds(0), help="Stop after so many seconds.")
@click.option("--without-bytes", is_flag=True, help="Words alone.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(rig: str | None, **wish: Unpack[Wish]) -> int:
    """Show in words what comes in on MIDI ports, and keep it as a capture.

    With a rig, messages are told in the words of its units and presets. A log holds everything,
    whatever is hidden on the screen; --replay shows it again. A port that is pulled out is told,
    and listened to again once it is back. Ctrl-C ends it.
    """
    case = Case(open_file(rig).rig) if rig is not None else None
    if bool(wish["port"]) == bool(wish["replay"]):
        raise CannotUse("name a port to listen to with --port, or a capture with --replay")
    if wish["replay"]:
        refuse_idle("log", "seconds", because=WITH_A_PORT)
    told = _replayed(case, wish) if wish["replay"] else _live(case, wish)
    if wish["as_json"]:
        give_json(listen_json(list(told), log=wish["log"]))
        return EXIT_CLEAN
    for one in told:
        say(told_row(one, with_bytes=not wish["without_bytes"]))
        flush_output()
    return EXIT_CLEAN


def _choice(case: Case | None, lines: tuple[str, ...], wish: Wish) -> Choice:
    return choice_of(case, lines, only=wish["only"], hide=wish["hide"])


def _replayed(case: Case | None, wish: Wish) -> Iterator[Told]:
    capture = open_capture(wish["replay"] or "")
    return told_of(capture, case, _choice(case, capture.lines, wish))


def _live(case: Case | None, wish: Wish) -> Iterator[Told]:
    """What comes in now, until the time is over or the person stops it."""
    lines = lines_of(wish["port"])
    names = tuple(line.name for line in lines)
    choice, clock = _choice(case, names, wish), wall_clock()
    teller = Teller(case, names)
    inputs = open_inputs([line.port for line in lines], clock)
    session = Session(inputs, clock, lines=names, began=time_of_day())
    if wish["log"] is not None:
        session.keep(open_log(wish["log"]))
    complain(f"listening to {', '.join(one.name for one in inputs)}; Ctrl-C ends it")
    seconds = wish["seconds"]
    end = None if seconds is None else round(seconds * 1_000_000)
    try:
        yield from listen(session, teller, choice, until_us=lambda: end)
    except KeyboardInterrupt:
        complain("stopped listening")
    finally:
        session.close()
