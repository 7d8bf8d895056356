import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.midi.any_message import messages
from thruline.base.errors import CannotUse
from thruline.midi.decode import decode, decode_whole
from thruline.midi.encode import encode
from thruline.midi.message import ControlChange, Message, NoteOff, NoteOn, PitchBend, SongPosition
from thruline.midi.specs import KIND_OF_STATUS, Family


@given(messages)
def test_decode_undoes_encode(message: Message) -> None:
    assert decode(encode(message)) == message


NO_MESSAGE = {0xF0, 0xF4, 0xF5, 0xF7, 0xF9, 0xFD}  # or, of F0, not one of fixed length


@pytest.mark.parametrize("status", sorted(KIND_OF_STATUS.keys() - NO_MESSAGE))
def test_encode_undoes_decode_for_all_values(status: int) -> None:
    kind = KIND_OF_STATUS[status]
    # All 16 384 pairs on one channel and for the system; the edges on the other fifteen.
    every = kind.family is not Family.CHANNEL or status == kind.status
    values = range(128) if every else (0, 1, 63, 64, 126, 127)
    for data in itertools.product(values, repeat=len(kind.data)):
        raw = bytes((status, *data))
        assert encode(decode(raw)) == raw


@pytest.mark.parametrize(
    ("raw", "message"),
    [
        ("B2 0E 40", ControlChange(3, 14, 64)),
        ("90 3C 00", NoteOff(1, 60)),
        ("80 3C 00", NoteOff(1, 60, 0)),
        ("9F 3C 01", NoteOn(16, 60, 1)),
        ("E0 00 40", PitchBend(1, 8192)),
        ("F2 00 01", SongPosition(128)),
    ],
)
def test_bytes_mean_what_the_standard_says(raw: str, message: Message) -> None:
    assert decode(bytes.fromhex(raw)) == message


@pytest.mark.parametrize(
    ("raw", "says"),
    [
        ("", "does not begin with a status"),
        ("07 64", "does not begin with a status"),
        ("B0 07", "takes 3 bytes, here are 2"),
        ("B0 07 64 65", "takes 3 bytes, here are 4"),
        ("B0 07 F8", "a status is among its data"),
        ("C0 80", "a status is among its data"),
        ("F4", "is no message: F4 hex is undefined"),
        ("FD", "is no message: FD hex is undefined"),
        ("F7", "is no message: F7 hex is end of exclusive"),
        ("F0", "does not end with F7"),
        ("F0 7D 01", "does not end with F7"),
        ("F0 7D F8 F7", "must be 00 to 7F"),
        ("F8 00", "takes 1 byte, here are 2"),
    ],
)
def test_anything_but_one_message_is_refused(raw: str, says: str) -> None:
    with pytest.raises(CannotUse, match=says):
        decode(bytes.fromhex(raw))


@given(st.binary(max_size=5))
def test_any_bytes_are_a_message_or_refused(raw: bytes) -> None:
    try:
        message = decode(raw)
    except CannotUse:
        return
    assert encode(message) == raw
    assert raw[0] == 0xF0 or decode_whole(raw) == message
