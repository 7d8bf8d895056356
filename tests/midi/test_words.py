import pytest
from hypothesis import given

from tests.midi.any_message import messages
from thruline.midi.message import (
    ChannelPressure,
    ControlChange,
    Message,
    NoteOff,
    NoteOn,
    PitchBend,
    PolyPressure,
    ProgramChange,
    QuarterFrame,
    RealTime,
    RealTimeKind,
    SongPosition,
    SongSelect,
    SystemExclusive,
    TuneRequest,
)
from thruline.midi.words import in_hex, in_words


@pytest.mark.parametrize(
    ("message", "words"),
    [
        (ProgramChange(3, 23), "channel 3: program change 23"),
        (ControlChange(3, 14, 64), "channel 3: control 14 = 64"),
        (ControlChange(3, 123, 0), "channel 3: control 123 = 0 (all notes off)"),
        (NoteOn(1, 60, 100), "channel 1: note 60 on, velocity 100"),
        (NoteOff(1, 60), "channel 1: note 60 off"),
        (NoteOff(1, 60, 64), "channel 1: note 60 off, velocity 64"),
        (PolyPressure(1, 60, 3), "channel 1: note 60 pressure 3"),
        (ChannelPressure(16, 3), "channel 16: channel pressure 3"),
        (PitchBend(1), "channel 1: pitch bend centre"),
        (PitchBend(1, 8292), "channel 1: pitch bend +100"),
        (PitchBend(1, 0), "channel 1: pitch bend -8192"),
        (SystemExclusive(b""), "system exclusive, 0 bytes"),
        (SystemExclusive(b"\x7d"), "system exclusive, 1 byte: 7D"),
        (
            SystemExclusive(bytes(range(9))),
            "system exclusive, 9 bytes: 00 01 02 03 04 05 06 07 ...",
        ),
        (QuarterFrame(3, 5), "time code quarter frame, piece 3 = 5"),
        (SongPosition(128), "song position 128"),
        (SongSelect(2), "song select 2"),
        (TuneRequest(), "tune request"),
        (RealTime(RealTimeKind.CLOCK), "clock"),
        (RealTime(RealTimeKind.ACTIVE_SENSING), "active sensing"),
    ],
)
def test_a_message_in_words(message: Message, words: str) -> None:
    assert in_words(message) == words


@given(messages)
def test_every_message_has_words_on_one_row(message: Message) -> None:
    words = in_words(message)
    assert words == words.strip() != ""
    assert "\n" not in words


def test_bytes_in_hex() -> None:
    assert in_hex(b"\xf0\x7e\x7f") == "F0 7E 7F"
    assert in_hex(b"\xf0\x7e\x7f", most=2) == "F0 7E ..."
    assert in_hex(b"\xf0\x7e\x7f", most=3) == "F0 7E 7F"
    assert in_hex(b"") == ""
