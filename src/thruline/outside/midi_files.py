"""Recordings that are Standard MIDI Files in a folder."""

from pathlib import Path
from typing import Final

from thruline.base.errors import CannotUse
from thruline.midi.file_decode import Recording, decode_file
from thruline.outside.files import read_bytes

LARGEST_FILE: Final = 64 << 20
"""Bytes; a line that is full for five hours fills less."""


def read_midi_file(file: Path) -> Recording:
    """The recording in a file, times in microseconds from the start.

    Raises CannotUse when it is not there, is far too large, or is no MIDI file of format 0 or 1;
    WorldFailed when it cannot be read.
    """
    raw = read_bytes(file, limit=LARGEST_FILE)
    try:
        return decode_file(raw)
    except CannotUse as trouble:
        raise CannotUse(f"{file}: {trouble.says}") from trouble
