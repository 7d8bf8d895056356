"""Recordings as Standard MIDI Files in a folder.

The MIDI library is not asked to write them: it refuses real-time messages in files, and a
recording of a line without its clock is half a recording.
"""

from collections.abc import Sequence
from pathlib import Path
from typing import Final

from thruline.base.errors import CannotUse
from thruline.midi.file_decode import Recording, decode_file
from thruline.midi.file_encode import encode_file
from thruline.midi.message import TimedMessage
from thruline.outside.files import read_bytes, write_raw

LARGEST_FILE: Final = 64 << 20
"""Bytes; a line that is full for five hours fills less."""


def write_midi_file(file: Path, timed: Sequence[TimedMessage], *, name: str = "") -> None:
    """Write messages, each with its microseconds from the start, as one named track.

    A file of that name is whole at every moment: the old one or the new one. Ticks are 20
    microseconds. Raises CannotUse when the times are out of order or there is no folder for it,
    WorldFailed when the file cannot be written.
    """
    write_raw(file, encode_file(timed, name=name))


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
