"""`export`: presets and sweeps as Standard MIDI Files or raw bytes, for other tools."""

from collections.abc import Mapping, Sequence
from pathlib import PurePath
from typing import TypedDict, Unpack

import click

from thruline.app.export import (
    EXCLUSIVE,
    Piece,
    bytes_ending,
    export_json,
    file_for_each,
    one_file,
    pieces,
)
from thruline.base.errors import EXIT_CLEAN, CannotUse
from thruline.cli.given import A_FILE, Amount
from thruline.cli.show import give_json, say
from thruline.proof.case import Case
from thruline.wiring import PLAIN, RECORDINGS, open_file, write_recordings


class Wish(TypedDict):
    """What is asked for besides the rig."""

    what: tuple[str, ...]
    seconds: float
    raw: bool
    as_json: bool


@click.command("export", epilog="Exit code 0.")
@click.argument("rig", type=A_FILE)
@click.argument("to", metavar="FOLDER_OR_FILE", type=A_FILE)
@click.argument("what", nargs=-1)
@click.option("--seconds", type=Amount(0.2, 60), default=4.0, help="How long a sweep travels.")
@click.option("--raw", is_flag=True, help="In a folder: raw bytes beside each MIDI file.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(rig: str, to: str, **wish: Unpack[Wish]) -> int:
    """Write presets and sweeps as Standard MIDI Files or raw bytes, for other tools to play.

    Into a folder goes a MIDI file for each; a name that ends in .mid makes one file of all, with a
    marker where each begins. A name in .bin makes one file of raw bytes, and so does .syx where all
    of it is system exclusive. WHAT are numbers of presets and names of sweeps; without any, all are
    written. Each message stands where its first byte leaves the controller, pauses included; a tick
    is 20 microseconds, a byte on the line 16 ticks. Where the controller sends over one output or
    another, each output has a track, named by its mark.
    """
    opened = open_file(rig)
    those = pieces(Case(opened.rig), wish["what"], seconds=wish["seconds"])
    if not those:
        raise CannotUse(f"{rig}: no preset and no sweep sends anything over MIDI")
    place = PurePath(to)
    files = _files(those, place, name=opened.rig.name, raw=wish["raw"])
    folder = place.parent if place.name in files else place
    write_recordings(folder, files)
    written = [str(folder / name) for name in files]
    if wish["as_json"]:
        give_json(export_json(those, written))
    else:
        for file in written:
            say(f"written to {file}")
    return EXIT_CLEAN


def _files(those: Sequence[Piece], to: PurePath, *, name: str, raw: bool) -> Mapping[str, bytes]:
    """What is written, by the names of files: one, or a file for each piece."""
    ending = to.suffix.lower()
    if raw and ending in (*RECORDINGS, *PLAIN):
        raise CannotUse(f"--raw is for a folder, and {to} is one file: name a folder")
    if ending in RECORDINGS:
        return {to.name: one_file(those, name=name)}
    if ending == EXCLUSIVE and bytes_ending(those) != EXCLUSIVE:
        raise CannotUse(
            f"{to} is not written: a file in .syx holds system exclusive alone, and these are "
            "channel messages too; call it .bin"
        )
    if ending in PLAIN and any(one.tracks for one in those):
        raise CannotUse(
            f"{to} is not written: the controller sends over one output or another, and bytes "
            "alone do not say over which; name a folder, with --raw"
        )
    if ending in PLAIN:
        return {to.name: b"".join(one.data for one in those)}
    if ending[1:].isalpha():
        endings = ", ".join((*RECORDINGS, *PLAIN))
        raise CannotUse(f"{to} is neither a folder nor a file that ends in one of {endings}")
    return file_for_each(those, raw=raw)
