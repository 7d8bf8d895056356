import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.midi.any_message import messages
from thruline.base.errors import CannotUse
from thruline.midi.file_decode import Recording, decode_file
from thruline.midi.file_encode import LONGEST_DELTA, TICK_US, encode_file
from thruline.midi.message import (
    ControlChange,
    ProgramChange,
    RealTime,
    RealTimeKind,
    SongPosition,
    SystemExclusive,
    TimedMessage,
)
from thruline.midi.stream import Flaw

END = "00 ff2f00"
CLOCK = RealTime(RealTimeKind.CLOCK)

timed = st.lists(st.tuples(st.integers(0, 5_000_000), messages), max_size=25).map(
    lambda entries: sorted(entries, key=lambda entry: entry[0])
)


def chunk(name: bytes, body: str) -> bytes:
    raw = bytes.fromhex(body)
    return name + len(raw).to_bytes(4) + raw


def file(*tracks: str, kind: int = 1, division: str = "01e0") -> bytes:
    """A file with these tracks, as hex; 480 ticks in a quarter note."""
    head = chunk(b"MThd", f"{kind:04x} {len(tracks):04x} {division}")
    return head + b"".join(chunk(b"MTrk", track) for track in tracks)


def heard(raw: bytes) -> tuple[TimedMessage, ...]:
    return decode_file(raw).messages


@given(timed, st.text(max_size=20))
def test_a_recording_comes_back(timed: list[TimedMessage], name: str) -> None:
    ticks = [(at * TICK_US, message) for at, message in timed]
    assert decode_file(encode_file(ticks, name=name)) == Recording(name, tuple(ticks))


@given(timed)
def test_any_time_comes_back_within_half_a_tick(timed: list[TimedMessage]) -> None:
    for (at, message), (found_at, found) in zip(timed, heard(encode_file(timed)), strict=True):
        assert found == message
        assert abs(found_at - at) <= TICK_US // 2


def test_a_gap_of_hours_comes_back() -> None:
    timed: list[TimedMessage] = [(3 * LONGEST_DELTA * TICK_US, ProgramChange(1, 5))]
    assert heard(encode_file(timed)) == tuple(timed)


def test_time_follows_the_tempo_of_any_track() -> None:
    # A quarter note at 120, then one at 60 a minute: half a second and a whole one.
    tempo = "8360 ff5103 0f4240" + END
    notes = "8360 c005" + "8360 c006" + END
    assert heard(file(tempo, notes)) == (
        (500_000, ProgramChange(1, 5)),
        (1_500_000, ProgramChange(1, 6)),
    )


@pytest.mark.parametrize(
    ("division", "us"),
    [("e728", 1_000), ("e878", 347), ("e250", 417), ("e364", 334), ("61a8", 20), ("0001", 500_000)],
)
def test_time_follows_the_division(division: str, us: int) -> None:
    assert heard(file("01 c005" + END, division=division)) == ((us, ProgramChange(1, 5)),)


def test_frames_of_time_code_have_no_tempo() -> None:
    body = "00 ff5103 07a120" + "01 c005" + END
    assert heard(file(body, division="e728")) == ((1_000, ProgramChange(1, 5)),)


def test_tracks_are_merged_by_time_and_then_by_track() -> None:
    first, second = "00 c001" + "02 c002" + END, "00 c103" + "01 c104" + END
    programs = [(message.channel, message.program) for _, message in heard(file(first, second))]
    assert programs == [(1, 1), (2, 3), (2, 4), (1, 2)]


def test_running_status_is_kept_over_a_meta_event() -> None:
    assert [message for _, message in heard(file("00 b00764 00 0765 00 ff0100 00 0766" + END))] == [
        ControlChange(1, 7, value) for value in (100, 101, 102)
    ]


def test_an_exclusive_in_packets_is_joined() -> None:
    packets = "00 f002 7d01" + "83 00 f701 02" + "8300 f702 03f7" + END
    ((at, message),) = heard(file(packets))
    assert message == SystemExclusive(b"\x7d\x01\x02\x03")
    assert at == 800_000


def test_escapes_carry_what_has_no_place_in_a_file() -> None:
    assert [message for _, message in heard(file("00 f704 f8f20001" + END))] == [
        CLOCK,
        SongPosition(128),
    ]


def test_system_messages_without_an_escape_are_understood() -> None:
    assert [message for _, message in heard(file("00 f8 00 f20001" + END))] == [
        CLOCK,
        SongPosition(128),
    ]


def test_what_is_malformed_is_reported() -> None:
    recording = decode_file(file("00 f70107 00 f0017d 8360 c005" + END))
    assert [(at, one.flaw, one.raw.hex()) for at, one in recording.malformed] == [
        (0, Flaw.ORPHAN_DATA, "07"),
        (500_000, Flaw.EXCLUSIVE_CUT, "f07d"),
    ]
    assert recording.messages == ((500_000, ProgramChange(1, 5)),)


def test_an_exclusive_without_an_end_is_reported() -> None:
    recording = decode_file(file("00 f0017d 8360 ff2f00"))
    assert [(at, one.flaw) for at, one in recording.malformed] == [(500_000, Flaw.BROKEN_OFF)]


@pytest.mark.parametrize(
    ("text", "name"), [("41c3a9", "Aé"), ("41e9", "Aé"), ("41", "A"), ("", "")]
)
def test_names_of_today_and_of_old(text: str, name: str) -> None:
    body = f"00 ff03 {len(text) // 2:02x} {text}"
    assert decode_file(file(body + END)).name == name


def test_the_first_name_is_the_name() -> None:
    assert decode_file(file("00 ff0300 00 ff030141 00 ff030142" + END)).name == "A"


def test_unknown_chunks_and_padding_are_skipped() -> None:
    raw = file("00 c005" + END)
    assert heard(raw[:14] + chunk(b"XFIH", "0102") + raw[14:] + bytes(7)) == heard(raw)


def test_what_follows_the_end_of_a_track_is_not_read() -> None:
    assert heard(file("00 c005" + END + "ffff")) == ((0, ProgramChange(1, 5)),)


@pytest.mark.parametrize(
    ("raw", "says"),
    [
        (b"", "not a MIDI file"),
        (b"RIFF", "not a MIDI file"),
        (b"MThd", "4 bytes should follow at byte 4, and there are 0"),
        (file(kind=2), "format 2, whose tracks have no common time"),
        (file(division="0000"), "a tick has no length"),
        (file(division="e700"), "a tick has no length"),
        (file("00 c005" + END)[:-1], "should follow"),
        (file("00 c0"), "1 byte should follow"),
        (file("00 05" + END), "there is no message"),
        (file("00 f4" + END), "there is no message"),
        (file("00 c0ff" + END), "there is no message"),
        (file("ffffffff 7f c005"), "has no end"),
        (file("00 f07f 7d"), "127 bytes should follow"),
    ],
)
def test_what_is_no_file_or_is_damaged_is_refused(raw: bytes, says: str) -> None:
    with pytest.raises(CannotUse, match=says):
        decode_file(raw)


@given(timed, st.data())
def test_a_damaged_file_is_read_or_refused(timed: list[TimedMessage], data: st.DataObject) -> None:
    raw = bytearray(encode_file(timed, name="line"))
    for _ in range(data.draw(st.integers(1, 4))):
        raw[data.draw(st.integers(0, len(raw) - 1))] = data.draw(st.integers(0, 255))
    try:
        decode_file(bytes(raw[: data.draw(st.integers(0, len(raw)))]))
    except CannotUse as trouble:
        assert "MIDI file" in trouble.says  # noqa: PT017 - most are refused, some are not


@given(st.binary(max_size=60))
def test_any_bytes_are_read_or_refused(body: bytes) -> None:
    try:
        recording = decode_file(file(body.hex()))
    except CannotUse:
        return
    times = [at for at, _ in recording.messages]
    assert times == sorted(times)
