"""What earlier cases say about the odds: how often a fault was seen, and how often expected.

The odds of the table are what is believed before any case. How far off they are for a kind, or for
one very thing of a board, is itself a rate with a Gamma prior of mean 1: after `seen` cases where
`expected` were to be expected, its mean is (weight + seen) / (weight + expected).
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

KIND_WEIGHT = 2.0
"""Cases of a kind that the table's odds for it are worth."""
THING_WEIGHT = 0.25
"""The same for one thing of a board: what failed once may well fail so again."""
NO_NUMBERS: Mapping[str, float] = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Experience:
    """Cases by kind of fault, and by the id of a suspect: seen, and expected by the odds then."""

    seen: Mapping[str, float] = field(default_factory=lambda: NO_NUMBERS)
    expected: Mapping[str, float] = field(default_factory=lambda: NO_NUMBERS)

    @property
    def mark(self) -> str:
        """The same for two experiences if and only if they say the same."""
        return f"seen {sorted(self.seen.items())} expected {sorted(self.expected.items())}"

    def moved(self, odds: float, *, kind: str, thing: str) -> float:
        """Odds of a suspect with what was seen of its kind and of itself."""
        return odds * self._rate(kind, KIND_WEIGHT) * self._rate(thing, THING_WEIGHT)

    def _rate(self, name: str, weight: float) -> float:
        return (weight + self.seen.get(name, 0.0)) / (weight + self.expected.get(name, 0.0))

    def with_(self, other: "Experience") -> "Experience":
        """Both together."""
        return Experience(
            seen=_summed(self.seen, other.seen), expected=_summed(self.expected, other.expected)
        )


NO_EXPERIENCE = Experience()


def _summed(one: Mapping[str, float], other: Mapping[str, float]) -> dict[str, float]:
    return {name: one.get(name, 0.0) + other.get(name, 0.0) for name in sorted(one.keys() | other)}
