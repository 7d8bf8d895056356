"""How fast the reader of live bytes is, and a long walk through damaged streams.

    python benchmarks/bench_stream.py [--seconds 5] [--seed 1] [--quick]

Speed is bytes a second of processor time, the best of five runs, and beside it for the parser of
the MIDI library on the same bytes in the same run, where that parser hears the same messages. The
walk then reads random and damaged streams, cut anywhere, for so many seconds and stops at the
first one that breaks a promise of the reader. Exit code 1 when one does. `--quick` measures once
and walks for half a second: enough to see that all of this still runs.
"""

import argparse
import random
import sys
import time
from collections.abc import Callable, Iterable

import mido  # type: ignore[import-untyped]  # it comes without types

from thruline.midi.encode import encode, encode_sequence
from thruline.midi.message import (
    ControlChange,
    Message,
    NoteOff,
    NoteOn,
    PitchBend,
    ProgramChange,
    QuarterFrame,
    RealTime,
    RealTimeKind,
    SongPosition,
    SystemExclusive,
    TuneRequest,
)
from thruline.midi.stream import Event, Flaw, Heard, Malformed, Reader

RUNS = 5
LINE = 3125  # bytes a second on a full MIDI line


def anything(chance: random.Random) -> Message:
    """One message of any kind, the kinds of a pedalboard most often."""
    channel, data = chance.randint(1, 16), chance.randrange(128)
    makers: list[Callable[[], Message]] = [
        lambda: ControlChange(channel, data, chance.randrange(128)),
        lambda: ControlChange(channel, data, chance.randrange(128)),
        lambda: ProgramChange(channel, data),
        lambda: RealTime(RealTimeKind.CLOCK),
        lambda: NoteOn(channel, data, chance.randint(1, 127)),
        lambda: NoteOff(channel, data),
        lambda: PitchBend(channel, chance.randrange(16384)),
        lambda: SystemExclusive(chance.randbytes(chance.randrange(30)).translate(SEVEN_BITS)),
        lambda: QuarterFrame(data >> 4, data & 15),
        lambda: SongPosition(data),
        TuneRequest,
        lambda: RealTime(chance.choice(list(RealTimeKind))),
    ]
    return chance.choice(makers)()


SEVEN_BITS = bytes(byte & 0x7F for byte in range(256))


# --- speed ---


def traffic(chance: random.Random) -> dict[str, bytes]:
    """Streams of about 300 000 bytes, by what is in them."""
    programs = [ProgramChange(chance.randint(1, 16), chance.randrange(128)) for _ in range(150_000)]
    controls = [
        ControlChange(chance.randint(1, 16), chance.randrange(128), chance.randrange(128))
        for _ in range(100_000)
    ]
    sweep = [(0, ControlChange(1, 11, index % 128)) for index in range(150_000)]
    recalls = [anything(chance) for _ in range(60_000)]
    dump = SystemExclusive(bytes(range(128)) * 4)
    return {
        "program changes": b"".join(map(encode, programs)),
        "control changes, all different": b"".join(map(encode, controls)),
        "a sweep with running status": b"".join(encode_sequence(sweep)),
        "everything mixed": b"".join(map(encode, recalls)),
        "exclusives": encode(dump) * 600,
        "clock": b"\xf8" * 300_000,
        "noise": chance.randbytes(300_000),
    }


def best_rate(read: Callable[[bytes], object], stream: bytes, runs: int) -> float:
    """Bytes a second of the best of some runs."""
    fastest = float("inf")
    for _ in range(runs):
        begin = time.process_time()
        read(stream)
        fastest = min(fastest, time.process_time() - begin)
    return len(stream) / fastest


def ours(stream: bytes) -> list[Event]:
    """What the reader makes of a stream."""
    return Reader().feed(stream)


def theirs(stream: bytes) -> mido.Parser:
    """What the parser of the library makes of it."""
    return mido.Parser(stream)


def same_messages(stream: bytes) -> bool:
    """Whether both hear the same."""
    heard = [encode(event.message) for event in ours(stream) if isinstance(event, Heard)]
    return heard == [bytes(message.bytes()) for message in theirs(stream)]


def measure(chance: random.Random, runs: int) -> None:
    """Print the speed for every kind of traffic."""
    print(f"{'traffic':32} {'bytes/s':>12} {'full lines':>11} {'the library':>14}")
    for name, stream in traffic(chance).items():
        rate = best_rate(ours, stream, runs)
        if same_messages(stream):
            compared = f"{rate / best_rate(theirs, stream, runs):.1f} x faster"
        else:
            compared = "hears other"
        print(f"{name:32} {rate:12,.0f} {rate / LINE:11,.0f} {compared:>14}")


# --- the walk ---


def damaged(chance: random.Random) -> bytes:
    """A stream: noise, or messages with some bytes changed, lost, doubled or moved in."""
    if chance.random() < 0.3:
        return chance.randbytes(chance.randrange(80))
    sequence = [(0, anything(chance)) for _ in range(chance.randrange(25))]
    if chance.random() < 0.5:
        stream = bytearray(b"".join(encode_sequence(sequence)))
    else:
        stream = bytearray(b"".join(encode(message) for _, message in sequence))
    for _ in range(chance.randrange(6)):
        at = chance.randrange(len(stream) + 1)
        match chance.randrange(4):
            case 0:
                stream[at : at + 1] = chance.randbytes(1)
            case 1:
                del stream[at : at + chance.randint(1, 3)]
            case 2:
                stream[at:at] = chance.randbytes(chance.randint(1, 3))
            case _:
                stream[at:at] = bytes((chance.randrange(0xF0, 0x100),))
    return bytes(stream)


def read_cut(chance: random.Random, stream: bytes, longest: int) -> list[Event]:
    """The events of a stream fed in pieces of any size."""
    reader, events, at = Reader(longest=longest), [], 0
    while at < len(stream):
        size = chance.choice((0, 1, 1, 2, 3, 10, 40))
        events += reader.feed(stream[at : at + size])
        at += size
    return events + reader.finish()


def comes_between(event: Event) -> bool:
    """Whether an event is a byte that may stand inside another message."""
    if isinstance(event, Heard):
        return isinstance(event.message, RealTime)
    return event.flaw is Flaw.UNDEFINED_STATUS


def broken_promise(stream: bytes, events: Iterable[Event]) -> str | None:
    """Which promise of the reader these events break; None when all are kept."""
    events = list(events)
    between = {event.first for event in events if comes_between(event)}
    owned: list[int] = []
    for event in events:
        span = range(event.first, event.last + 1)
        own = [at for at in span if len(span) == 1 or at not in between]
        owned += own
        raw = bytes(stream[at] for at in own)
        if isinstance(event, Malformed) and raw != event.raw:
            return f"{event} is not at its place"
        if isinstance(event, Heard) and not encode(event.message).endswith(raw):
            return f"{event} does not stand there"
        if isinstance(event, Heard) and len(encode(event.message)) - len(raw) not in (0, 1):
            return f"{event} lacks bytes"
    return None if sorted(owned) == list(range(len(stream))) else "a byte has no event, or two"


def walk(chance: random.Random, seconds: float) -> bool:
    """Read damaged streams until time is up; whether every promise was kept."""
    end = time.perf_counter() + seconds
    streams = size = flaws = 0
    while time.perf_counter() < end:
        stream, longest = damaged(chance), chance.choice((1, 2, 5, 1000))
        whole = Reader(longest=longest)
        events = whole.feed(stream) + whole.finish()
        broken = broken_promise(stream, events)
        if broken is None and read_cut(chance, stream, longest) != events:
            broken = "cut in pieces it reads otherwise"
        if broken is not None:
            print(f"limit {longest}, stream {stream.hex(' ')}\n{broken}")
            return False
        streams, size = streams + 1, size + len(stream)
        flaws += sum(isinstance(event, Malformed) for event in events)
    print(f"{streams:,} streams, {size:,} bytes, {flaws:,} malformed: every byte in one event")
    return True


def main() -> int:
    """Measure, then walk."""
    asked = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    asked.add_argument("--seconds", type=float, default=5, help="how long to read damaged streams")
    asked.add_argument("--seed", type=int, default=1, help="another seed, other streams")
    asked.add_argument("--quick", action="store_true", help="only see that it runs")
    options = asked.parse_args()
    chance = random.Random(options.seed)
    measure(chance, runs=1 if options.quick else RUNS)
    return 0 if walk(chance, 0.5 if options.quick else options.seconds) else 1


if __name__ == "__main__":
    sys.exit(main())
