"""How often a signal may be copied electrically, and how far it may run.

A thru socket that copies its input switches on and off with different delays. The difference, its
skew, adds up from copy to copy and shortens the bits, until a receiver reads them wrongly. An
output that sends again what it received begins anew.
"""

from dataclasses import dataclass

from thruline.path.carriers import Carrier
from thruline.path.links import Link
from thruline.rig.cable import Cable
from thruline.rig.chart import Way

HALF_BIT_NS = 16_000
"""A receiver reads in the middle of a bit; a bit lasts 32 us at 31 250 baud (MIDI 1.0)."""
LAST_BIT_NS = 304_000
"""From the start edge to the middle of the stop bit, 9.5 bits: over this the clocks drift apart."""
SAMPLING_NS = 2_000
"""How finely a usual receiver sees the start edge: a sixteenth of a bit."""


def budget_ns(clock_ppm: int) -> int:
    """The skew that a receiver bears, in ns: `half a bit - drift of the clocks - sampling`.

    `clock_ppm` is the sum of the errors of both clocks in millionths (arithmetic).
    """
    drift = -(-LAST_BIT_NS * clock_ppm // 1_000_000)
    return HALF_BIT_NS - drift - SAMPLING_NS


BUDGET_NS = budget_ns(20_000)
"""With both clocks at the limit of 1 % that MIDI 1.0 allows: 7.9 us."""
CRYSTAL_BUDGET_NS = budget_ns(200)
"""With both clocks from crystals, 0.01 % off at most: 13.9 us."""

LONGEST_MM = 15_000
"""The longest way over cables from an output to an input (CA-033: 15 m, 50 ft)."""
LONGEST_ADAPTER_MM = 2_000
"""The longest adapter lead between DIN and a jack plug (RP-054)."""


@dataclass(frozen=True, slots=True)
class Copies:
    """Electrical copies in series since the signal was last made anew.

    `skew_ns` is the sum of what they add, None when a chart lacks it.
    """

    count: int = 0
    skew_ns: int | None = 0

    def through(self, carrier: Carrier) -> "Copies":
        """The copies after one more output; only an output known to copy electrically counts."""
        if carrier.way is not Way.THRU_WIRE:
            return FRESH
        skew = carrier.output.skew_ns
        both = None if skew is None or self.skew_ns is None else self.skew_ns + skew
        return Copies(self.count + 1, both)

    def within(self, budget: int = BUDGET_NS) -> bool | None:
        """Whether a receiver still reads it rightly; None when the skew is not known."""
        return None if self.skew_ns is None else self.skew_ns <= budget


FRESH = Copies()
"""As it leaves an output that makes its signal itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TooLong:
    """Cables of a link that are longer than they may be."""

    link: Link
    cables: tuple[Cable, ...]
    length_mm: int
    limit_mm: int


def too_long(link: Link) -> tuple[TooLong, ...]:
    """The link as a whole against 15 m, and each adapter lead against 2 m.

    A link that is nothing but one adapter lead is held against 2 m alone.
    A cable whose length is not written counts as nothing.
    """
    whole = sum(cable.length or 0 for cable in link.cables)
    leads = [cable for cable in link.cables if is_adapter_lead(cable)]
    runs: list[tuple[tuple[Cable, ...], int, int]] = [
        ((cable,), cable.length or 0, LONGEST_ADAPTER_MM) for cable in leads
    ]
    if link.cables != tuple(leads[:1]):
        runs.insert(0, (link.cables, whole, LONGEST_MM))
    return tuple(
        TooLong(link=link, cables=cables, length_mm=length, limit_mm=limit)
        for cables, length, limit in runs
        if length > limit
    )


def is_adapter_lead(cable: Cable) -> bool:
    """Whether it has a DIN plug at one end and a jack plug at the other."""
    return {plug.split("-")[0].rstrip("57") for plug in cable.plugs} in (
        {"din", "trs"},
        {"din", "ts"},
    )
