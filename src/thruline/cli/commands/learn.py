"""`learn`: a rig document from what an undocumented controller sends."""

from collections.abc import Iterator
from pathlib import Path
from typing import TypedDict, Unpack

import click

from thruline.app.learn import learn_captures, learned_rig, units_said
from thruline.app.learn_answer import learn_json, learn_rows
from thruline.app.learn_live import HOW, Lessons
from thruline.app.learn_questions import asked
from thruline.app.learn_said import Said, said_pedal, said_preset, said_unit
from thruline.app.listen import lines_of
from thruline.app.new_rig import board_name, file_name
from thruline.audit.capture import Capture
from thruline.base.errors import EXIT_CLEAN, CannotUse, WorldFailed
from thruline.bench.listen import Session, closed
from thruline.binding import check_new
from thruline.cli.given import A_FILE, WITH_A_PORT, refuse_idle, seconds
from thruline.cli.show import ask, ask_rows, complain, give_json, say_all
from thruline.wiring import (
    lay_beside,
    open_capture,
    open_file,
    open_inputs,
    open_log,
    shelves_for,
    time_of_day,
    wall_clock,
    write_rig,
)


class Wish(TypedDict):
    """What is asked for besides the files."""

    port: tuple[str, ...]
    log: str | None
    patience: float
    board: str | None
    unit: tuple[str, ...]
    controller: str | None
    preset: tuple[str, ...]
    pedal: tuple[str, ...]
    name: str | None
    ask: bool
    as_json: bool


@click.command(
    "learn", epilog="Exit code 0 when the document was written; 2 when nothing could be learned."
)
@click.argument("new", metavar="NEW.rig.toml", type=A_FILE)
@click.argument("captures", metavar="[CAPTURE]...", type=A_FILE, nargs=-1)
@click.option(
    "--port",
    multiple=True,
    metavar="[SOCKET=]PORT",
    help="Listen now, in place of captures; before it the socket that it is plugged into.",
)
@click.option("--log", type=A_FILE, metavar="FILE", help="Keep what is heard as a capture.")
@click.option("--patience", type=seconds(0.1), default=30.0, help="Seconds to wait for a press.")
@click.option(
    "--board",
    type=A_FILE,
    metavar="RIG",
    help="A rig document with what is known already: units, cables, settings.",
)
@click.option(
    "--unit",
    multiple=True,
    metavar="CHANNEL=ID:CHART",
    help="Which unit is on a channel: 3=delay:bramley-delay.",
)
@click.option("--controller", metavar="CHART", help="The id of the controller's chart.")
@click.option("--preset", multiple=True, metavar="NUMBER=NAME", help="What a preset is called.")
@click.option("--pedal", multiple=True, metavar="SWEEP=INPUT", help="Where a sweep's pedal is.")
@click.option("--name", help="What the rig is called; otherwise its file's name, in words.")
@click.option("--ask", is_flag=True, help="Ask about what is still open.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(new: str, captures: tuple[str, ...], **wish: Unpack[Wish]) -> int:
    """Write a rig document from what an undocumented controller sends.

    From captures, or live: then you say which preset you press, or which pedal you move, and it is
    heard. Several presses of each preset let damaged bytes be told from what is sent. What remains
    unknown is said, and stands as comments in the document.
    """
    if bool(captures) == bool(wish["port"]):
        raise CannotUse("name captures to learn from, or a port to listen to with --port")
    if captures:
        refuse_idle("log", "patience", because=WITH_A_PORT)
    place = file_name(new)
    shelves = shelves_for(Path(place).parent)
    board = open_file(wish["board"]) if wish["board"] else None
    said = Said(
        name=wish["name"] or board_name(place),
        controller=wish["controller"],
        units=dict(said_unit(word) for word in wish["unit"]),
        presets=dict(said_preset(word) for word in wish["preset"]),
        pedals=dict(said_pedal(word) for word in wish["pedal"]),
    )
    known = units_said(said, board, shelves)
    check_new(place)
    lost: WorldFailed | None = None
    if captures:
        heard = [open_capture(one) for one in captures]
    else:
        live, lost = _live(wish)
        heard = [live]
    learned = learn_captures(heard, known)
    if wish["ask"]:
        said = asked(learned, said, board, shelves=shelves, ask=ask)
        learned = learn_captures(heard, units_said(said, board, shelves))
    made = learned_rig(learned, said, board=board, shelves=shelves, file=place)
    lay_beside(place, {name: text.encode() for name, text in made.charts.items()})
    write_rig(place, made.text)
    if wish["as_json"]:
        give_json(learn_json(made, file=place))
    else:
        say_all(learn_rows(made, file=place))
    if lost is not None:
        raise lost
    return EXIT_CLEAN


def _live(wish: Wish) -> tuple[Capture, WorldFailed | None]:
    """A person says what comes next, does it, and is told what was heard.

    What was heard, and what became of the log if it is not whole: learning does not need it.
    """
    clock = wall_clock()
    lines = lines_of(wish["port"])
    inputs = open_inputs([line.port for line in lines], clock)
    names = tuple(line.name for line in lines)
    session = Session(inputs, clock, lines=names, began=time_of_day())
    if wish["log"] is not None:
        session.keep(open_log(wish["log"]))
    lessons = Lessons(session, patience_us=round(wish["patience"] * 1_000_000))
    complain(HOW)
    try:
        for says in lessons.heard(_rows()):
            complain(says)
    except KeyboardInterrupt:
        complain("no more presses")
    finally:
        lost = closed(session)
    return lessons.capture, lost


def _rows() -> Iterator[str]:
    """What the person writes; asked for on standard error, so that an answer stays alone."""
    complain("next:")
    for row in ask_rows():
        yield row
        complain("next:")
