"""Messages as they stand in a controller's memory, written in words.

    3: program 24          channel 3, the program that the controller's screen calls 24
    3: control 14 = 64     channel 3, control number 14, value 64
    wait 40 ms             a pause
    bytes F0 7D 01 F7      one message, byte by byte

Behind a message stands its output, where the controller chooses one: `3: program 24 over out-2`.

Program numbers are as the screen shows them, which may count from 1; the wire always counts from 0.
"""

import re

from thruline.base.errors import CannotUse
from thruline.midi.decode import decode
from thruline.rig.preset import Stored, StoredControl, StoredPause, StoredProgram, StoredRaw

_PROGRAM = re.compile(r"(\d{1,2})\s*:\s*program\s+(\d{1,3})", re.IGNORECASE)
_CONTROL = re.compile(r"(\d{1,2})\s*:\s*control\s+(\d{1,3})\s*=\s*(\d{1,3})", re.IGNORECASE)
_WAIT = re.compile(r"wait\s+(\d{1,5})\s*ms", re.IGNORECASE)
_BYTES = re.compile(r"bytes((?:\s+[0-9a-f]{2})+)", re.IGNORECASE)

_OVER = re.compile(r"(.*\S)\s+over\s+([a-z0-9][a-z0-9-]*)", re.IGNORECASE)

_PROGRAM_LIKE = re.compile(r"(\d{1,6})\s*:\s*program\s+(\d{1,6})", re.IGNORECASE)
_CONTROL_LIKE = re.compile(r"(\d{1,6})\s*:\s*control\s+(\d{1,6})\s*=\s*(\d{1,6})", re.IGNORECASE)
_WAIT_BARE = re.compile(r"wait\s+(\d{1,5})", re.IGNORECASE)
_LAST_CHANNEL = 16

EXAMPLE = '"3: program 24", "3: control 14 = 64", "wait 40 ms" or "bytes F0 7D 01 F7"'


def read_stored(text: str, *, programs_from: int) -> Stored | None:
    """The message that a text stands for; None when it stands for none.

    `programs_from` is the number that the controller's screen gives to the first program (0 or 1).
    """
    words, over = _parted(text)
    if found := _PROGRAM.fullmatch(words):
        channel, number = int(found[1]), int(found[2])
        wire = number - programs_from
        good = 1 <= channel <= 16 and 0 <= wire <= 127
        return StoredProgram(channel, number, wire, over) if good else None
    if found := _CONTROL.fullmatch(words):
        channel, number, value = int(found[1]), int(found[2]), int(found[3])
        good = 1 <= channel <= 16 and number <= 127 and value <= 127
        return StoredControl(channel, number, value, over) if good else None
    if (found := _WAIT.fullmatch(words)) and not over:
        return StoredPause(int(found[1]))
    if found := _BYTES.fullmatch(words):
        data = bytes.fromhex(found[1])
        return StoredRaw(tuple(data), over) if _is_one_message(data) else None
    return None


def _parted(text: str) -> tuple[str, str]:
    """A message, and the output behind it; nothing where none is said."""
    words = text.strip()
    found = _OVER.fullmatch(words)
    return (found[1], found[2].lower()) if found else (words, "")


def why_not(text: str, *, programs_from: int) -> str:
    """What is wrong with a text that stands for no message, as far as that can be told."""
    words, _ = _parted(text)
    found = _PROGRAM_LIKE.fullmatch(words) or _CONTROL_LIKE.fullmatch(words)
    if found and not 1 <= int(found[1]) <= _LAST_CHANNEL:
        return f"there is no channel {found[1]}: they run from 1 to {_LAST_CHANNEL}"
    if found := _PROGRAM_LIKE.fullmatch(words):
        last = 127 + programs_from
        return f"there is no program {found[2]}: this screen counts from {programs_from} to {last}"
    if found := _CONTROL_LIKE.fullmatch(words):
        if int(found[2]) > 127:
            return (
                f"there is no control {found[2]}: they run from 0 to 119 "
                "(120 to 127 are channel mode messages)"
            )
        return f"there is no value {found[3]}: they run from 0 to 127"
    if found := _WAIT_BARE.fullmatch(words):
        return f'the measure is missing: write "wait {found[1]} ms"'
    return f"one reads {EXAMPLE}"


def _is_one_message(data: bytes) -> bool:
    """Whether bytes are one whole message: what is none, nobody can say the fate of."""
    try:
        decode(data)
    except CannotUse:
        return False
    return True


def write_stored(message: Stored) -> str:
    """The text that stands for a message; the inverse of `read_stored`."""
    match message:
        case StoredProgram():
            words = f"{message.channel}: program {message.shown}"
        case StoredControl():
            words = f"{message.channel}: control {message.number} = {message.value}"
        case StoredPause():
            return f"wait {message.ms} ms"
        case StoredRaw():
            words = "bytes " + " ".join(f"{byte:02X}" for byte in message.data)
    return f"{words} over {message.over}" if message.over else words
