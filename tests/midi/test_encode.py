from hypothesis import given
from hypothesis import strategies as st

from tests.midi.any_message import messages
from thruline.midi.encode import LastStatus, encode, encode_running, encode_sequence
from thruline.midi.message import (
    ControlChange,
    Message,
    ProgramChange,
    RealTime,
    RealTimeKind,
    SystemExclusive,
    TimedMessage,
    TuneRequest,
)
from thruline.midi.stream import Heard, Reader

SECOND = 1_000_000
CLOCK = RealTime(RealTimeKind.CLOCK)

timed = st.lists(st.tuples(st.integers(0, 5 * SECOND), messages), max_size=40).map(
    lambda entries: sorted(entries, key=lambda entry: entry[0])
)


def sent(*sequence: Message, every: int = 0, refresh: int | None = None) -> str:
    """The bytes of messages `every` so many microseconds, as hex, a bar between messages."""
    timed = [(index * every, message) for index, message in enumerate(sequence)]
    return "|".join(raw.hex() for raw in encode_sequence(timed, refresh=refresh))


def test_the_same_status_is_left_out() -> None:
    volume = ControlChange(1, 7, 100), ControlChange(1, 11, 90)
    assert sent(*volume) == "b00764|0b5a"


def test_another_channel_or_kind_has_its_status() -> None:
    assert sent(ProgramChange(1, 5), ProgramChange(2, 5)) == "c005|c105"
    assert sent(ProgramChange(1, 5), ControlChange(1, 5, 6)) == "c005|b00506"


def test_real_time_does_not_disturb_it() -> None:
    assert sent(ProgramChange(1, 5), CLOCK, ProgramChange(1, 6)) == "c005|f8|06"


def test_system_common_exclusive_and_reset_clear_it() -> None:
    reset = RealTime(RealTimeKind.SYSTEM_RESET)
    for between in (TuneRequest(), SystemExclusive(b"\x7d"), reset):
        last = sent(ProgramChange(1, 5), between, ProgramChange(1, 6)).split("|")[-1]
        assert last == "c006"


def test_system_messages_never_run_on() -> None:
    assert sent(TuneRequest(), TuneRequest()) == "f6|f6"


def test_the_status_is_refreshed_after_a_pause() -> None:
    assert sent(*[ProgramChange(1, 5)] * 3, every=2 * SECOND, refresh=2 * SECOND) == (
        "c005|c005|c005"
    )


def test_the_status_is_refreshed_on_a_busy_line_too() -> None:
    assert sent(*[ProgramChange(1, 5)] * 5, every=SECOND, refresh=2 * SECOND) == (
        "c005|05|c005|05|c005"
    )


def test_without_refresh_it_is_never_sent_again() -> None:
    assert sent(*[ProgramChange(1, 5)] * 3, every=3600 * SECOND) == "c005|05|05"


def test_a_sender_remembers_when_the_status_was_really_there() -> None:
    raw, last = encode_running(ProgramChange(1, 5), LastStatus(), at=7)
    assert (raw, last) == (b"\xc0\x05", LastStatus(0xC0, 7))
    assert encode_running(ProgramChange(1, 6), last, at=9) == (b"\x06", last)


@given(timed, st.none() | st.integers(0, 3 * SECOND))
def test_a_reader_hears_what_was_sent(timed: list[TimedMessage], refresh: int | None) -> None:
    line = b"".join(encode_sequence(timed, refresh=refresh))
    reader = Reader()
    heard = [event.message for event in reader.feed(line) if isinstance(event, Heard)]
    assert heard == [message for _, message in timed]
    assert reader.finish() == []


@given(timed)
def test_running_status_saves_bytes_and_never_costs_any(timed: list[TimedMessage]) -> None:
    for raw, (_, message) in zip(encode_sequence(timed), timed, strict=True):
        assert raw in (encode(message), encode(message)[1:])


@given(timed)
def test_a_refresh_of_nothing_sends_every_status(timed: list[TimedMessage]) -> None:
    assert encode_sequence(timed, refresh=0) == tuple(encode(message) for _, message in timed)
