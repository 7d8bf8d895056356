"""Presets for the benchmark of composing: seeded, so that a number means the same every time.

Two families. `standard` has settles from 5 to 150 ms, so that mostly one slow unit decides; in
`stress` they end at 40 ms, so that the wire decides and orders differ most.
"""

import random
from dataclasses import dataclass
from enum import StrEnum
from math import exp, log

from thruline.compose.jobs import Block, Job

PROGRAM_US = 640
"""Two bytes of 320 us: a program change (MIDI 1.0 Detailed Specification)."""
CONTROL_US = 960
"""Three bytes: a control change."""
KEPT_US = 640
"""A control change whose status byte is left out."""
HOP_US = 960
"""What one more unit on the way costs: a whole control change is received, then sent on."""


class Family(StrEnum):
    """Which kind of presets."""

    STANDARD = "standard"
    STRESS = "stress"


@dataclass(frozen=True, slots=True)
class Ranges:
    """What a family draws from, in microseconds."""

    settle: tuple[int, int]
    late: tuple[int, int] = (2_000, 20_000)
    apply: tuple[int, int] = (200, 5_000)


RANGES = {
    Family.STANDARD: Ranges(settle=(5_000, 150_000)),
    Family.STRESS: Ranges(settle=(5_000, 40_000)),
}


def between(chance: random.Random, ends: tuple[int, int]) -> int:
    """A whole number between the ends, evenly spread by its logarithm."""
    return round(exp(chance.uniform(log(ends[0]), log(ends[1]))))


def some_job(chance: random.Random, ranges: Ranges) -> Job:
    """One unit: 1 to 8 controls, perhaps bank select, a program, a late control, hops before it."""
    settle = between(chance, ranges.settle)
    has_program = chance.random() >= 0.1
    has_bank = chance.random() < 0.3
    count = chance.randint(1, 8)
    late = between(chance, ranges.late) if count > 1 and chance.random() < 0.15 else 0
    blocks = [Block(full_us=CONTROL_US, kept_us=KEPT_US) for _ in range(count)]
    if late:
        blocks[-1] = Block(full_us=CONTROL_US, kept_us=KEPT_US, lag_us=late)
    return Job(
        head_us=(PROGRAM_US + (CONTROL_US + KEPT_US if has_bank else 0)) if has_program else 0,
        lag_us=settle,
        blocks=tuple(blocks),
        tail_us=between(chance, ranges.apply) + HOP_US * chance.randint(0, 5),
        weight=chance.choice((1, 1, 1, 2, 3, 5)),
    )


def presets(family: Family, count: int, seed: int) -> list[tuple[Job, ...]]:
    """`count` presets of 4 to 16 units each."""
    chance = random.Random(f"{family} {seed}")
    return [
        tuple(some_job(chance, RANGES[family]) for _ in range(chance.randint(4, 16)))
        for _ in range(count)
    ]
