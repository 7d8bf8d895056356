"""Is the right cause found? Seeded boards, seeded mistakes, captures through bytes and back.

    python benchmarks/bench_audit.py [--quick] [--tune | --seeds N]

Seeds of `--tune` are for looking at while the code is changed; the others are set aside. `--seeds`
takes a family of seeds that was never used. Every case that was answered wrongly is printed with
what was done and what was said. Times are processor time, so that a busy machine counts less.

Two answers are timed. "After the last press" is the first that a person in front of the Bench page
sees of what she pressed: all was heard but for that press, which is read, placed and weighed with
the others, and told as the page is told it. "Of a capture" is the answer about all that was heard,
from its bytes on.
"""

import gc
import random
import sys
import time
from collections.abc import Callable, Iterator

import numpy as np
from audit_worlds import world

from thruline.app.pressing import Pressing
from thruline.audit.align import SILENCE_US, align
from thruline.audit.build import build
from thruline.audit.capture import Came, Capture, Note
from thruline.audit.fault import Family, Fault, in_order
from thruline.audit.listed import every_fault
from thruline.audit.meant import NO_KEY, Meant, meant_by
from thruline.audit.verdict import verdict
from thruline.bench.pretend import Trouble, pretend_capture

USUAL = Trouble(lost=0.001, strays=0.05)
LOSSY = Trouble(lost=0.05, strays=0.05)
GARBLED = Trouble(lost=0.001, garbled=0.002, strays=0.05)
FOUR = ("feet.midi-out", "u5.midi-out", "u10.midi-out", "u16.midi-out")
WORLDS = 10


def worlds(seed: int) -> list[Meant]:
    """Boards to try, half of them listened to at one place and half at four."""
    made = []
    for number in range(WORLDS):
        now, before = world(seed + number)
        taps = FOUR if number % 2 else ("u16.midi-out",)
        made.append(meant_by(now, taps, before=before))
    return made


def drawn(meant: Meant, rng: random.Random, count: int) -> tuple[Fault, ...]:
    """Mistakes by family first, so that rare families are tried as often; none without effect."""
    by_family: dict[Family, list[Fault]] = {}
    for fault in every_fault(meant):
        by_family.setdefault(fault.family, []).append(fault)
    rows, everything = meant.rows, np.ones(len(meant.steps), np.bool_)
    plain = build(meant, (), everything)
    while True:
        faults = []
        for family in rng.sample(list(Family), count):
            if family is Family.NUMBER:
                place = rng.choice(np.flatnonzero((rows.kind == 0xB) & ~rows.travel).tolist())
                faults.append(
                    Fault(family, int(rows.unit[place]), int(rows.first[place]), rng.randrange(120))
                )
            else:
                faults.append(rng.choice(by_family[family]))
        found = in_order(tuple(faults))
        effects = [build(meant, one, everything) for one in (found, found[:1], found[1:])]
        if all((effects[0] != one).any() for one in (plain, *effects[1 : 2 * count - 1])):
            return found


def same_effect(meant: Meant, pressed: np.ndarray, one: tuple, other: tuple) -> bool:
    """Whether nobody could tell two answers apart."""
    keys = [np.sort(build(meant, faults, pressed)) for faults in (one, other)]
    return np.array_equal(*(found[found != NO_KEY] for found in keys))


Outcome = tuple[bool, bool, bool, float, bool, float, float]


def tried(
    meant: Meant, faults: tuple[Fault, ...], rng: random.Random, *, trouble: Trouble,
    presses: int | None = None, spoil: Callable[[Capture], Capture] = lambda one: one,
) -> Outcome:  # fmt: skip
    """One capture with these mistakes, audited: what came of it."""
    steps = range(len(meant.steps))
    pressed = sorted(rng.sample(steps, presses)) if presses else None
    capture = spoil(
        pretend_capture(meant, faults, pressed=pressed, trouble=trouble, chance=rng.random)
    )
    live = live_seconds(meant, capture)
    begin = time.process_time()
    aligned = align(capture, meant)
    found = verdict(meant, aligned)
    took = time.process_time() - begin
    right = same_effect(meant, aligned.pressed, faults, found.best.faults)
    listed = (found.best.faults, *found.best.same)
    top = any(same_effect(meant, aligned.pressed, faults, one.faults) for one in found.causes[:3])
    named = faults in listed
    if not right and not (found.unexplained and not faults):
        print(
            f"  wrong: {faults} was called {found.best.faults} ({found.best.odds:.2f})", flush=True
        )
    return right, named, top, found.best.odds, bool(found.unexplained), live, took


def live_seconds(meant: Meant, capture: Capture) -> float:
    """How long the answer after the last press of an audit takes, as a page gets it."""
    pressing = Pressing(meant, meant.case.rig, lines=capture.lines)
    entries = capture.entries
    last = max(place for place, one in enumerate(entries) if isinstance(one, Note))
    for one in entries[: last + 1]:
        if isinstance(one, Note):
            pressing.write([one])
        else:
            pressing.hear([one], one.at_us)
    begin = time.process_time()
    pressing.hear(entries[last + 1 :], entries[-1].at_us)
    pressing.hear([], entries[-1].at_us + SILENCE_US)
    pressing.judged()
    return time.process_time() - begin


def report(name: str, outcomes: list[Outcome]) -> None:
    """One row of figures."""
    columns = [np.array(column) for column in zip(*outcomes, strict=True)]
    right, named, top, odds, flagged, live, took = columns
    sure = right[odds >= 0.95]
    print(
        f"{name:34} n {right.size:4}  same effect {right.mean():7.1%}  named {named.mean():7.1%}  "
        f"top 3 {top.mean():7.1%}  right when sure {sure.mean() if sure.size else 1:7.1%}  "
        f"flagged {flagged.mean():6.1%}  after the last press {in_ms(live)}  "
        f"of a capture {in_ms(took)}",
        flush=True,
    )


def in_ms(seconds: np.ndarray) -> str:
    """Some times in short: the middle, one in twenty, and the longest."""
    middle, most = (1000 * np.quantile(seconds, share) for share in (0.5, 0.95))
    return f"{middle:3.0f} ms (p95 {most:.0f}, max {1000 * seconds.max():.0f})"


def spoilers(meant: Meant, rng: random.Random) -> Iterator[Callable[[bytes], list[bytes]]]:
    """Mistakes that are in no vocabulary: what each does to every message of a capture."""
    channel = int(rng.choice(meant.channels.tolist()))
    rows = meant.rows
    control = (rows.kind == 0xB) & ~rows.travel & (rows.channel == channel)
    number = int(rng.choice(rows.first[control].tolist()))
    status = 0xB0 | channel

    def halved(data: bytes) -> list[bytes]:
        return [bytes((*data[:2], data[2] // 2))] if data[:1] == bytes((status,)) else [data]

    def by_chance(data: bytes) -> list[bytes]:
        mine = data[:2] == bytes((status, number))
        return [bytes((*data[:2], rng.randrange(128)))] if mine else [data]

    def doubled(data: bytes) -> list[bytes]:
        return [data, data] if data[0] & 0x0F == channel else [data]

    def ten_on(data: bytes) -> list[bytes]:
        mine = data[0] == 0xC0 | channel
        return [bytes((data[0], (data[1] + 10) % 128))] if mine else [data]

    def as_notes(data: bytes) -> list[bytes]:
        return [bytes((0x90 | channel, data[1], data[2]))] if data[0] == status else [data]

    yield from (halved, by_chance, doubled, ten_on, as_notes)


def spoiled(change: Callable[[bytes], list[bytes]]) -> Callable[[Capture], Capture]:
    """A capture with every message changed so."""

    def spoil(capture: Capture) -> Capture:
        entries = []
        for one in capture.entries:
            if isinstance(one, Came):
                entries += [Came(one.at_us, one.line, data) for data in change(one.data)]
            else:
                entries.append(one)
        return Capture(lines=capture.lines, entries=tuple(entries))

    return spoil


def main(options: list[str]) -> None:
    """Every set, one row each."""
    if "--help" in options:
        print(__doc__)
        return
    share = 50 if "--quick" in options else 1
    base = 1_000 if "--tune" in options else 10_000
    if "--seeds" in options:
        base = int(options[options.index("--seeds") + 1])
    made = worlds(base)
    gc.freeze()  # nobody holds ten boards at once: the collector need not go through them each time
    sets = [
        ("single", 500, 1, USUAL, None),
        ("double", 200, 2, USUAL, None),
        ("single, 5 % of messages lost", 200, 1, LOSSY, None),
        ("double, 5 % of messages lost", 100, 2, LOSSY, None),
        ("single, 8 presses only", 200, 1, USUAL, 8),
        ("single, bytes garbled", 200, 1, GARBLED, None),
        ("no mistake", 100, 0, USUAL, None),
        ("no mistake, 5 % lost", 100, 0, LOSSY, None),
    ]
    for place, (name, count, faults, trouble, presses) in enumerate(sets):
        outcomes = []
        for case in range(count // share):
            rng = random.Random(base * 9 + 1_000 * place + case)
            meant = made[case % WORLDS]
            drawn_ones = drawn(meant, rng, faults) if faults else ()
            outcomes.append(tried(meant, drawn_ones, rng, trouble=trouble, presses=presses))
        report(name, outcomes)
    outcomes = []
    for case in range(max(1, 90 // share)):
        rng = random.Random(base * 5 + case)
        meant = made[case % WORLDS]
        change = list(spoilers(meant, rng))[case % 5]
        outcomes.append(tried(meant, (), rng, trouble=USUAL, spoil=spoiled(change)))
    report("outside the vocabulary", outcomes)


if __name__ == "__main__":
    main(sys.argv[1:])
