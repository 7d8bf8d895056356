"""`identify`: who is there."""

from typing import TypedDict, Unpack

import click

from thruline.app.frame import answer
from thruline.app.gather import gather, gathered
from thruline.base.errors import EXIT_CLEAN, CannotUse
from thruline.bench.face import WallClock
from thruline.bench.identity import WAIT_US, Answered, answers, question
from thruline.bench.listen import Session
from thruline.bench.plugged import HeldInput
from thruline.cli.given import A_FILE
from thruline.cli.letting_go import until_the_end
from thruline.cli.show import give_json, say
from thruline.wiring import open_capture, open_file, open_inputs, open_outputs, wall_clock

SILENCE = (
    "nobody answered. That proves nothing: answering is optional, and an answer needs a cable from "
    "the unit's MIDI OUT back to the port that is listened to"
)


class Wish(TypedDict):
    """What is asked for besides the rig."""

    port: str | None
    back: str | None
    replay: str | None
    as_json: bool


@click.command("identify", epilog="Exit code 0, whether anybody answers or not.")
@click.argument("rig", type=A_FILE)
@click.option("--port", metavar="PORT", help="Where to send the question.")
@click.option("--back", metavar="PORT", help="Where answers come in; the same by default.")
@click.option("--replay", type=A_FILE, metavar="FILE", help="A capture of answers, not a port.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(rig: str, **wish: Unpack[Wish]) -> int:
    """Ask who is there, and hold the answers against the charts.

    The identity request of the standard changes nothing in any unit.
    """
    units = open_file(rig).rig.units
    if (wish["port"] is None) == (wish["replay"] is None):
        raise CannotUse("name the port to ask on with --port, or a capture with --replay")
    if wish["replay"] is not None:
        events = list(gathered(open_capture(wish["replay"])))
    else:
        clock, port = wall_clock(), wish["port"] or ""
        session = Session(_answers_from(wish["back"], port, clock), clock, lines=["answers"])
        (out,) = until_the_end(open_outputs([port], clock))
        out.look()
        out.send(question())
        out.land()
        events = gather(session, patience_us=WAIT_US, quiet_us=WAIT_US // 2)
    found = answers(events, [(name, unit.chart) for name, unit in units.items()])
    if wish["as_json"]:
        give_json(answer("identify", answered=[_json(one) for one in found]))
        return EXIT_CLEAN
    for one in found:
        say(one.says)
    if not found:
        say(SILENCE)
    return EXIT_CLEAN


def _answers_from(back: str | None, port: str, clock: WallClock) -> list[HeldInput]:
    """Where answers come in: where it is said, or at the port that is asked on."""
    try:
        return open_inputs([back or port], clock)
    except CannotUse as trouble:
        if back is not None:
            raise
        raise CannotUse(f"{trouble.says}. Say with --back where answers come in") from trouble


def _json(one: Answered) -> dict[str, object]:
    reply = one.reply
    return {
        "units": list(one.units),
        "maker": reply.maker.hex(" ").upper(),
        "family": reply.family,
        "member": reply.member,
        "revision": reply.revision.hex(" ").upper(),
        "says": one.says,
    }
