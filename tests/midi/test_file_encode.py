import io

import mido
import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.base.errors import CannotUse
from thruline.base.measures import BYTE_US
from thruline.midi.file_encode import LONGEST_DELTA, TICK_US, encode_file, variable_length
from thruline.midi.message import (
    ControlChange,
    ProgramChange,
    RealTime,
    RealTimeKind,
    SystemExclusive,
    TimedMessage,
)

HEADER = "4d546864 00000006 0000 0001 61a8"
TEMPO = "00 ff5103 07a120"
END = "00 ff2f00"


def track(*events: str) -> bytes:
    """A file of one track with these events, as hex."""
    body = bytes.fromhex("".join(events))
    return bytes.fromhex(HEADER) + b"MTrk" + len(body).to_bytes(4) + body


def test_an_empty_recording_is_a_whole_file() -> None:
    assert encode_file([]) == track(TEMPO, END)


def test_the_track_is_named_first() -> None:
    assert encode_file([], name="A é") == track("00 ff0304 4120c3a9", TEMPO, END)


def test_marks_stand_before_the_messages_of_their_moment() -> None:
    timed: list[TimedMessage] = [(0, ProgramChange(1, 5)), (40, ProgramChange(1, 6))]
    marks = [(60, "end"), (40, "é")]
    assert encode_file(timed, marks=marks) == track(
        TEMPO, "00 c005", "02 ff0602 c3a9", "00 c006", "01 ff0603 656e64", END
    )


def test_half_a_character_in_a_name_becomes_a_question_mark() -> None:
    assert encode_file([], name="\ud800") == track("00 ff0301 3f", TEMPO, END)


def test_channel_messages_stand_as_on_a_line() -> None:
    timed: list[TimedMessage] = [(0, ProgramChange(1, 5)), (40, ControlChange(2, 7, 100))]
    assert encode_file(timed) == track(TEMPO, "00 c005", "02 b10764", END)


def test_exclusives_have_their_length() -> None:
    timed: list[TimedMessage] = [(0, SystemExclusive(b"\x7d\x01"))]
    assert encode_file(timed) == track(TEMPO, "00 f003 7d01f7", END)


def test_real_time_travels_in_an_escape() -> None:
    timed: list[TimedMessage] = [(20, RealTime(RealTimeKind.CLOCK))]
    assert encode_file(timed) == track(TEMPO, "01 f701f8", END)


def test_a_byte_on_a_line_is_a_whole_number_of_ticks() -> None:
    assert BYTE_US % TICK_US == 0


@pytest.mark.parametrize(
    ("number", "raw"),
    [
        (0, "00"), (0x40, "40"), (0x7F, "7f"), (0x80, "8100"), (0x2000, "c000"), (0x3FFF, "ff7f"),
        (0x4000, "818000"), (0x1FFFFF, "ffff7f"), (0x200000, "81808000"), (0x0FFFFFFF, "ffffff7f"),
    ],
)  # fmt: skip
def test_variable_length_quantities_are_those_of_the_standard(number: int, raw: str) -> None:
    assert variable_length(number).hex() == raw


def test_a_gap_too_long_for_one_delta_is_bridged() -> None:
    gap = (2 * LONGEST_DELTA + 5) * TICK_US
    bridge = "ffffff7f ff0100"
    assert encode_file([(gap, ProgramChange(1, 5))]) == track(TEMPO, bridge * 2, "05 c005", END)


@pytest.mark.parametrize("times", [(-1,), (5, 4), (5, 5, 0)])
def test_times_out_of_order_are_refused(times: tuple[int, ...]) -> None:
    with pytest.raises(CannotUse, match="in order of time"):
        encode_file([(at, ProgramChange(1, 5)) for at in times])


@given(st.lists(st.tuples(st.integers(0, 10_000_000), st.integers(0, 127)), max_size=20))
def test_another_reader_finds_the_same_programs_and_times(entries: list[tuple[int, int]]) -> None:
    timed: list[TimedMessage] = [
        (at * TICK_US, ProgramChange(1, program)) for at, program in sorted(entries)
    ]
    file = mido.MidiFile(file=io.BytesIO(encode_file(timed, name="line 1")))
    ticks, found = 0, []
    for message in file.tracks[0]:
        ticks += message.time
        if message.type == "program_change":
            found.append((ticks * TICK_US, ProgramChange(message.channel + 1, message.program)))
    assert found == timed
    assert file.tracks[0].name == "line 1"
