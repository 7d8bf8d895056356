"""`clock`: measure the MIDI clock that comes in, or make one."""

from itertools import takewhile
from typing import TypedDict, Unpack

import click

from thruline.app.frame import answer
from thruline.app.gather import gathered
from thruline.audit.capture import Capture, Entry
from thruline.base.errors import EXIT_CLEAN, EXIT_FAULTS, CannotUse
from thruline.bench.beat import Beat, clocks, measure
from thruline.bench.listen import Session
from thruline.bench.send import play
from thruline.cli.given import A_FILE, WITH_A_PORT, Amount, refuse_idle, seconds
from thruline.cli.letting_go import until_the_end
from thruline.cli.show import complain, give_json, say
from thruline.wiring import open_capture, open_inputs, open_outputs, wall_clock

CLOCK = b"\xf8"


class Wish(TypedDict):
    """Where clock comes from or goes to, and how long."""

    source: tuple[str, ...]
    target: tuple[str, ...]
    replay: str | None
    bpm: float
    seconds: float
    as_json: bool


@click.command("clock", epilog="Exit code 0; 1 when a clock is doubled, or none comes.")
@click.option("--in", "source", multiple=True, metavar="PORT", help="Measure what comes in here.")
@click.option("--out", "target", multiple=True, metavar="PORT", help="Make a clock here.")
@click.option("--replay", type=A_FILE, metavar="FILE", help="Measure a capture.")
@click.option("--bpm", type=Amount(20, 400), default=120.0, help="The tempo to make.")
@click.option("--for", "seconds", type=seconds(1), default=10.0, help="Seconds.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(**wish: Unpack[Wish]) -> int:
    """Measure the MIDI clock that comes in, or make one.

    Tempo is told over everything and beat by beat, with the jitter. A clock that two sources send
    at once is recognised by its uneven gaps.
    """
    ways = [bool(wish["source"]), bool(wish["target"]), wish["replay"] is not None]
    if ways.count(True) != 1:
        raise CannotUse("say one of --in (measure), --out (make), or --replay (a capture)")
    if not wish["target"]:
        refuse_idle("bpm", because="is the tempo of a clock that is made, with --out")
    if wish["replay"] is not None:
        refuse_idle("seconds", because=WITH_A_PORT)
    if wish["target"]:
        return _make(wish)
    capture = open_capture(wish["replay"]) if wish["replay"] is not None else _heard(wish)
    times: dict[str, list[int]] = {name: [] for name in capture.lines}
    for one in gathered(capture):
        if one.raw == CLOCK:
            times[capture.lines[one.line - 1]].append(one.at_us)
    beats = {line: beat for line, row in times.items() if (beat := measure(row)) is not None}
    if wish["as_json"]:
        give_json(answer("clock", beats=[_json(line, beat) for line, beat in beats.items()]))
    else:
        for line in times:
            say(f"{line}: {beats[line].says if line in beats else 'no clock to speak of'}")
    good = beats and not any(beat.doubled for beat in beats.values())
    return EXIT_CLEAN if good else EXIT_FAULTS


def _heard(wish: Wish) -> Capture:
    """What comes in for so many seconds."""
    clock = wall_clock()
    session = Session(open_inputs(wish["source"], clock), clock, lines=wish["source"])
    entries: list[Entry] = []
    try:
        while session.passed_us < wish["seconds"] * 1_000_000:
            entries += session.turn()
            session.rest()
    except KeyboardInterrupt:
        complain("measured until here")
    session.close()
    return Capture(lines=wish["source"], entries=tuple(entries))


def _make(wish: Wish) -> int:
    """Clock for so many seconds."""
    clock = wall_clock()
    ports = until_the_end(open_outputs(wish["target"], clock))
    end_us = wish["seconds"] * 1_000_000
    planned = takewhile(lambda one: one.at_us < end_us, clocks(wish["bpm"]))
    for port in ports:
        port.look()
    beat = measure([one.at_us for one in play(planned, ports, clock, slips=False)])
    for port in ports:
        port.land()
    if wish["as_json"]:
        give_json(answer("clock", beats=[_json("out", beat)] if beat else []))
    elif beat is not None:
        say(f"sent: {beat.says}")
    return EXIT_CLEAN


def _json(line: str, beat: Beat) -> dict[str, object]:
    return {
        "line": line,
        "clocks": beat.clocks,
        "bpm": round(beat.bpm, 3),
        "lowest_bpm": round(beat.lowest, 3),
        "highest_bpm": round(beat.highest, 3),
        "jitter_us": beat.jitter_us,
        "worst_us": beat.worst_us,
        "doubled": beat.doubled,
        "says": beat.says,
    }
