"""`trace`: follow one preset, message by message, through the rig."""

from collections.abc import Iterator
from typing import TypedDict, Unpack

import click

from thruline.app.export import encoded, piece_of
from thruline.app.frame import answer
from thruline.app.trace import Trace, Which, trace
from thruline.app.trace_answer import trace_json
from thruline.app.trace_paper import heading, trace_sections
from thruline.base.errors import EXIT_CLEAN, EXIT_FAULTS
from thruline.cli.canvas import in_ascii
from thruline.cli.given import A_FILE, refuse_idle
from thruline.cli.paper_text import section_rows
from thruline.cli.show import can_show, give_json, say_all, styled, terminal_width
from thruline.cli.timing_text import key_rows, sum_style, timing_rows
from thruline.papers.timing_svg import timing_svg
from thruline.proof.case import Case
from thruline.wiring import open_file, write_drawing, write_midi


class Wish(TypedDict):
    """What is asked for besides the preset."""

    came_from: str | None
    with_bytes: bool
    best: bool | None
    svg: str | None
    dark: bool
    midi: str | None
    as_json: bool


BOXES = "│╲╰╮├╎┊●✕◉◌□■▒░╌┃║"


@click.command(
    "trace",
    epilog="Exit code 0 when all that is asked for is sent and obeyed, 1 when something is not.",
)
@click.argument("rig", type=A_FILE)
@click.argument("preset")
@click.option("--from", "came_from", metavar="PRESET", help="The preset before it.")
@click.option("--bytes", "with_bytes", is_flag=True, help="Every byte on every hop as well.")
@click.option(
    "--best/--as-stored",
    default=None,
    help="The best order of its goals, or what the controller's memory holds; without either, "
    "what a press sends.",
)
@click.option("--svg", type=A_FILE, metavar="FILE", help="Draw it into a file.")
@click.option("--dark", is_flag=True, help="Draw on a dark ground.")
@click.option("--midi", type=A_FILE, metavar="FILE", help="Write it as a MIDI file.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(rig: str, preset: str, **wish: Unpack[Wish]) -> int:
    """Follow one preset, message by message, through the rig.

    PRESET is its number or its name, of which a beginning will do.

    Units down, time across: when each message leaves, where it is when, what becomes of it, and
    whether the whole could be faster. In a MIDI file each message stands where its first byte
    leaves the controller; where this sends over one output or another, each output has a track.
    """
    if wish["svg"] is None:
        refuse_idle("dark", because="is for a drawing; add --svg FILE.svg")
    which = {None: Which.PRESS, True: Which.BEST, False: Which.STORED}[wish["best"]]
    case = Case(open_file(rig).rig)
    found = trace(case, preset, came_from=wish["came_from"], which=which)
    written = [*_write(case, found, wish)]
    if wish["as_json"]:
        give_json(answer("trace", **trace_json(found), written=written))
    else:
        say_all(_rows(found, with_bytes=wish["with_bytes"]))
        say_all(f"written to {file}" for file in written)
    return EXIT_CLEAN if found.is_done else EXIT_FAULTS


def _write(case: Case, found: Trace, wish: Wish) -> Iterator[str]:
    """Write what is asked for; the names of the files."""
    svg, midi = wish["svg"], wish["midi"]
    if svg is not None:
        write_drawing(svg, timing_svg(found.picture, dark=wish["dark"]))
        yield svg
    if midi is not None:
        title = found.preset.title
        write_midi(midi, encoded(piece_of(case, found.sending.items, title=title), name=title))
        yield midi


def _rows(found: Trace, *, with_bytes: bool) -> Iterator[str]:
    """The heading, the picture, and everything in words."""
    width = terminal_width()
    yield styled(heading(found), sum_style(found.picture))
    if found.messages:
        yield ""
        boxes = can_show(BOXES)
        yield from timing_rows(found.picture, width=width, style=styled, ascii_only=not boxes)
        key = [*key_rows(found.picture)]
        yield from key if boxes else in_ascii(key)
    for section in trace_sections(found, with_bytes=with_bytes):
        yield ""
        yield from section_rows(section, width=width)
