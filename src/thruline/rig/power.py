"""What units want from a supply, and what outlets give, in millivolts, milliamps, milliwatts."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

OTHER_POLARITY: Mapping[str, str] = MappingProxyType(
    {"centre-negative": "centre-positive", "centre-positive": "centre-negative"}
)
"""What a polarity becomes over a lead that swaps plus and minus."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """What a unit wants. None means that the chart does not say.

    `most_millivolts` is the highest voltage it bears, the same as `millivolts` when only one will
    do.
    `start_percent` is the current at start-up in percent of `milliamps`.
    """

    millivolts: int
    most_millivolts: int
    ac: bool
    polarity: str | None
    milliamps: int | None
    start_percent: int | None
    digital: bool | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What an outlet gives at one position of the switch that chooses its voltage."""

    value: str
    millivolts: int
    milliamps: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlet:
    """One outlet of a supply, at whatever positions of its switch `choices` do not name."""

    socket: str
    millivolts: int
    ac: bool
    polarity: str | None
    milliamps: int
    isolated: bool
    choices: tuple[Choice, ...] = ()

    def at(self, value: str) -> "Outlet":
        """The outlet with its switch at a position."""
        for one in self.choices:
            if one.value == value:
                return replace(self, millivolts=one.millivolts, milliamps=one.milliamps)
        return self
