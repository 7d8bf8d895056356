from collections.abc import Iterable, Iterator
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.midi.any_message import messages, real_time
from thruline.base.errors import CannotUse
from thruline.midi.decode import decode
from thruline.midi.encode import encode, encode_sequence
from thruline.midi.message import (
    ControlChange,
    Message,
    NoteOff,
    ProgramChange,
    QuarterFrame,
    RealTime,
    RealTimeKind,
    SongPosition,
    SongSelect,
    SystemExclusive,
    TuneRequest,
)
from thruline.midi.stream import Event, Flaw, Heard, Malformed, Reader
from thruline.midi.words import in_words

CLOCK = RealTime(RealTimeKind.CLOCK)
RESET = RealTime(RealTimeKind.SYSTEM_RESET)


def volume(value: int) -> ControlChange:
    return ControlChange(1, 7, value)


def read(stream: bytes, *, longest: int = 1000) -> list[Event]:
    reader = Reader(longest=longest)
    return reader.feed(stream) + reader.finish()


def meanings(stream: str) -> list[Message | tuple[Flaw, str]]:
    """What is heard, and what is malformed as its flaw and bytes, in order."""
    return [
        event.message if isinstance(event, Heard) else (event.flaw, event.raw.hex(" ").upper())
        for event in read(bytes.fromhex(stream))
    ]


def orphans(*data: str) -> list[tuple[Flaw, str]]:
    return [(Flaw.ORPHAN_DATA, byte) for byte in data]


# --- what the standard asks of a receiver ---

VECTORS = {
    "B0 07 64 07 65": [volume(100), volume(101)],
    "B0 07 F8 64": [CLOCK, volume(100)],
    "B0 F8 07 64": [CLOCK, volume(100)],
    "B0 07 64 F8 07 65": [volume(100), CLOCK, volume(101)],
    "B0 07 64 F9 07 65": [volume(100), (Flaw.UNDEFINED_STATUS, "F9"), volume(101)],
    "B0 07 FD 64": [(Flaw.UNDEFINED_STATUS, "FD"), volume(100)],
    "B0 07 64 F1 00 07 65": [volume(100), QuarterFrame(0, 0), *orphans("07", "65")],
    "B0 07 F4 64": [
        (Flaw.UNFINISHED, "B0 07"),
        (Flaw.UNDEFINED_STATUS, "F4"),
        *orphans("64"),
    ],
    "B0 07 64 F5 07 65": [volume(100), (Flaw.UNDEFINED_STATUS, "F5"), *orphans("07", "65")],
    "B0 07 64 F7 07 65": [volume(100), (Flaw.STRAY_END, "F7"), *orphans("07", "65")],
    "B0 07 64 F6 07 65": [volume(100), TuneRequest(), *orphans("07", "65")],
    "C0 05 06": [ProgramChange(1, 5), ProgramChange(1, 6)],
    "B0 07 C0 05": [(Flaw.UNFINISHED, "B0 07"), ProgramChange(1, 5)],
    "B0 07 64 07 C0 05": [volume(100), (Flaw.UNFINISHED, "07"), ProgramChange(1, 5)],
    "F2 00 01 02": [SongPosition(128), *orphans("02")],
    "F3 04 05": [SongSelect(4), *orphans("05")],
    "F0 7D 01 F8 02 F7": [CLOCK, SystemExclusive(b"\x7d\x01\x02")],
    "F0 7D 01 B0 07 64": [(Flaw.EXCLUSIVE_CUT, "F0 7D 01"), volume(100)],
    "F0 7D 01 F4 02": [
        (Flaw.EXCLUSIVE_CUT, "F0 7D 01"),
        (Flaw.UNDEFINED_STATUS, "F4"),
        *orphans("02"),
    ],
    "F0 F0 7D F7": [(Flaw.EXCLUSIVE_CUT, "F0"), SystemExclusive(b"\x7d")],
    "F0 7D 01 F7 07 64": [SystemExclusive(b"\x7d\x01"), *orphans("07", "64")],
    "F0 F7": [SystemExclusive(b"")],
    "B0 07 FF 64": [(Flaw.UNFINISHED, "B0 07"), RESET, *orphans("64")],
    "C0 05 FF 06": [ProgramChange(1, 5), RESET, *orphans("06")],
    "F0 7D FF F7": [(Flaw.EXCLUSIVE_CUT, "F0 7D"), RESET, (Flaw.STRAY_END, "F7")],
    "90 3C 00": [NoteOff(1, 60)],
    "07 64": orphans("07", "64"),
    "B0 07": [(Flaw.BROKEN_OFF, "B0 07")],
    "B0 07 64 07": [volume(100), (Flaw.BROKEN_OFF, "07")],
    "F0 7D": [(Flaw.BROKEN_OFF, "F0 7D")],
    "": [],
}


@pytest.mark.parametrize(("stream", "expected"), VECTORS.items(), ids=VECTORS)
def test_a_stream_is_read_as_the_standard_says(
    stream: str, expected: list[Message | tuple[Flaw, str]]
) -> None:
    assert meanings(stream) == expected


def test_a_note_on_of_no_velocity_is_a_note_off() -> None:
    (event,) = read(bytes.fromhex("90 3C 00"))
    assert isinstance(event, Heard)
    assert in_words(event.message) == "channel 1: note 60 off"


def test_positions_span_what_came_between() -> None:
    assert read(bytes.fromhex("B0 07 F8 64 07 65")) == [
        Heard(CLOCK, 2, 2),
        Heard(volume(100), 0, 3),
        Heard(volume(101), 4, 5),
    ]


def test_positions_of_what_was_given_up_end_at_its_last_byte() -> None:
    assert read(bytes.fromhex("B0 07 F8"))[1:] == [Malformed(Flaw.BROKEN_OFF, b"\xb0\x07", 0, 1)]
    assert read(bytes.fromhex("F0 7D F8 F8 C0 05"))[2:] == [
        Malformed(Flaw.EXCLUSIVE_CUT, b"\xf0\x7d", 0, 1),
        Heard(ProgramChange(1, 5), 4, 5),
    ]


# --- exclusives of any length in bounded memory ---


def test_an_exclusive_as_long_as_the_limit_is_heard() -> None:
    assert read(b"\xf0\x01\x02\x03\xf7", longest=3) == [Heard(SystemExclusive(b"\1\2\3"), 0, 4)]


def test_a_longer_one_is_given_up_in_pieces() -> None:
    assert read(b"\xf0\x01\x02\x03\x04\x05\xf7\x06", longest=2) == [
        Malformed(Flaw.EXCLUSIVE_TOO_LONG, b"\xf0\x01\x02", 0, 2),
        Malformed(Flaw.EXCLUSIVE_TOO_LONG, b"\x03\x04", 3, 4),
        Malformed(Flaw.EXCLUSIVE_TOO_LONG, b"\x05\xf7", 5, 6),
        Malformed(Flaw.ORPHAN_DATA, b"\x06", 7, 7),
    ]


def test_a_longer_one_may_still_be_cut_short() -> None:
    assert [event.flaw for event in read(b"\xf0\x01\x02\x03\xf6", longest=2)[:2]] == [
        Flaw.EXCLUSIVE_TOO_LONG,
        Flaw.EXCLUSIVE_CUT,
    ]


def test_the_next_exclusive_is_heard_again() -> None:
    assert read(b"\xf0\1\2\xf7\xf0\3\xf7", longest=1)[-1] == Heard(SystemExclusive(b"\3"), 4, 6)


def test_an_endless_exclusive_takes_no_more_memory_than_its_limit() -> None:
    reader = Reader(longest=100)
    reader.feed(b"\xf0")
    for _ in range(50):
        assert all(len(event.raw) <= 101 for event in reader.feed(bytes(997)))
        assert len(reader._held) <= 100


def test_a_limit_of_nothing_is_refused() -> None:
    with pytest.raises(CannotUse, match="at least 1 byte"):
        Reader(longest=0)


# --- a line that ends, and comes back ---


def test_a_line_that_comes_back_has_no_running_status() -> None:
    reader = Reader()
    reader.feed(b"\xc0\x05")
    assert reader.finish() == []
    assert reader.feed(b"\x06\xc0\x07") == [
        Malformed(Flaw.ORPHAN_DATA, b"\x06", 2, 2),
        Heard(ProgramChange(1, 7), 3, 4),
    ]
    assert reader.position == 5


def test_every_flaw_says_one_sentence() -> None:
    for flaw in Flaw:
        assert flaw.says.endswith(".")
        assert flaw.says.count(".") == 1
        assert Flaw(flaw.value) is flaw


# --- properties, over any bytes and any messages ---

# Statuses and short runs of data, so that streams are often nearly right.
lively = st.lists(
    st.sampled_from([0x80, 0x93, 0xB0, 0xC0, 0xCF, 0xE0, *range(0xF0, 0x100)])
    | st.integers(0, 3)
    | st.integers(0, 255),
    max_size=60,
).map(bytes)
streams = st.binary(max_size=60) | lively


def positions(events: Iterable[Event]) -> Iterator[tuple[Event, list[int]]]:
    """Each event with the positions of its own bytes: what came in between has its own event."""
    events = list(events)
    between = {event.first for event in events if event.first == event.last and real(event)}
    for event in events:
        span = range(event.first, event.last + 1)
        yield event, [at for at in span if at not in between or len(span) == 1]


def real(event: Event) -> bool:
    """Whether an event is a real-time byte, defined or not."""
    if isinstance(event, Heard):
        return isinstance(event.message, RealTime)
    return event.raw in (b"\xf9", b"\xfd")


@given(streams, st.integers(1, 10))
def test_every_byte_belongs_to_one_event(stream: bytes, longest: int) -> None:
    owned = [at for _, own in positions(read(stream, longest=longest)) for at in own]
    assert sorted(owned) == list(range(len(stream)))


@given(streams, st.integers(1, 10))
def test_positions_point_at_the_bytes(stream: bytes, longest: int) -> None:
    for event, own in positions(read(stream, longest=longest)):
        raw = bytes(stream[at] for at in own)
        assert (own[0], own[-1]) == (event.first, event.last)
        if isinstance(event, Malformed):
            assert raw == event.raw
        else:
            whole = encode(event.message)
            # A note off may stand in its two forms, and running status leaves out the status.
            assert raw in (whole, whole[1:])
            assert decode(whole) == event.message


@given(streams, st.integers(1, 10))
def test_events_come_in_the_order_of_their_last_bytes(stream: bytes, longest: int) -> None:
    heard = [event for event in read(stream, longest=longest) if isinstance(event, Heard)]
    lasts = [event.last for event in heard]
    assert lasts == sorted(set(lasts))


@given(streams, st.lists(st.integers(0, 60)), st.integers(1, 10))
def test_the_way_a_stream_is_cut_changes_nothing(
    stream: bytes, cuts: list[int], longest: int
) -> None:
    reader = Reader(longest=longest)
    edges = [0, *sorted(min(cut, len(stream)) for cut in cuts), len(stream)]
    events = []
    for begin, end in pairwise(edges):
        events += reader.feed(stream[begin:end])
    assert events + reader.finish() == read(stream, longest=longest)
    assert reader.position == len(stream)


@given(streams)
def test_byte_by_byte_is_the_same(stream: bytes) -> None:
    reader = Reader()
    events = [event for byte in stream for event in reader.feed(bytes((byte,)))]
    assert events + reader.finish() == read(stream)


@given(st.lists(messages, max_size=12), st.lists(st.tuples(st.integers(0), real_time), max_size=8))
def test_real_time_inserted_anywhere_changes_no_other_message(
    sequence: list[Message], inserted: list[tuple[int, Message]]
) -> None:
    beats = [message for message in inserted if message[1] != RESET]
    stream = b"".join(encode_sequence((0, message) for message in sequence))
    for place, message in beats:
        at = place % (len(stream) + 1)
        stream = stream[:at] + encode(message) + stream[at:]
    heard = [event.message for event in read(stream) if isinstance(event, Heard)]
    assert without_beats(heard) == without_beats(sequence)
    assert len(heard) == len(sequence) + len(beats)


def without_beats(sequence: Iterable[Message]) -> list[Message]:
    return [one for one in sequence if not isinstance(one, RealTime) or one == RESET]


# --- the same, against a reader that takes the rules one by one and one byte at a time ---


def by_the_rules(stream: bytes) -> Iterator[Message]:
    """What is heard, written from the rules and without a thought for speed or for flaws."""
    running, gathered = 0, b""
    for byte in stream:
        single = bytes((byte,))
        if byte in (0xF9, 0xFD):  # ignored, and nothing else changes
            continue
        if byte in (0xF8, 0xFA, 0xFB, 0xFC, 0xFE):  # handled at once, and nothing else changes
            yield decode(single)
        elif byte in (0xFF, 0xF6):  # whole at once, and no status is in force
            yield decode(single)
            running, gathered = 0, b""
        elif byte == 0xF7:  # ends an exclusive, or is stray
            if gathered[:1] == b"\xf0":
                yield decode(gathered + single)
            running, gathered = 0, b""
        elif byte >= 0x80:  # abandons whatever is unfinished
            running = byte if byte < 0xF0 else 0
            gathered = single if byte not in (0xF4, 0xF5) else b""
        elif gathered or running:
            gathered = (gathered or bytes((running,))) + single
            size = {0xC: 2, 0xD: 2}.get(gathered[0] >> 4, 3)
            size = {0xF0: -1, 0xF1: 2, 0xF2: 3, 0xF3: 2}.get(gathered[0], size)
            if len(gathered) == size:
                yield decode(gathered)
                gathered = b""


@given(streams)
def test_what_is_heard_is_what_the_rules_say(stream: bytes) -> None:
    heard = [event.message for event in read(stream) if isinstance(event, Heard)]
    assert heard == list(by_the_rules(stream))
