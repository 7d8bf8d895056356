"""A cable: two plugs and how their contacts are joined."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from thruline.base.address import Address, at, nth
from thruline.rig.socket import CONTACTS, SIGNALS, Signals, Wiring

CROSSED: Mapping[str, str] = MappingProxyType(
    {"4": "5", "5": "4", "tip": "ring", "ring": "tip", "centre": "outer", "outer": "centre"}
)
"""What a crossed lead joins: the two wires of the pair swapped."""


@dataclass(frozen=True, slots=True)
class Jack:
    """One socket of one unit, by ids."""

    unit: str
    socket: str

    def __str__(self) -> str:
        return f"{self.unit}.{self.socket}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cable:
    """One cable. `joins` maps contacts of the plug at `start` to contacts of the plug at `stop`.

    `length` is in mm, None when not written.
    """

    start: Jack
    stop: Jack
    plugs: tuple[str, str]
    joins: tuple[tuple[str, str], ...]
    wiring: str
    length: int | None
    occurrence: int = 1

    @property
    def name(self) -> str:
        """What names the cable in addresses: `feet.midi-out>pre.midi-in`."""
        return f"{self.start}>{self.stop}"

    @property
    def address(self) -> Address:
        """Where the cable stands in the document."""
        return at("cable", nth(self.name, self.occurrence))


def is_adapted(plugs: tuple[str, str]) -> bool:
    """Whether the plugs are a DIN plug and a jack plug, between which there are two types."""
    return _adapted(plugs, Wiring.TYPE_A) is not None


def joined(plugs: tuple[str, str], wiring: str) -> tuple[tuple[str, str], ...] | None:
    """The contacts that a named wiring joins between two plugs; None if it makes no sense there.

    `straight` joins contacts of the same name; between a DIN plug and a jack plug it means the
    standard adapter (RP-054, type A). `type-a` and `type-b` say which adapter it is.
    """
    first, second = (CONTACTS.get(plug) for plug in plugs)
    if first is None or second is None:
        return None
    if wiring == "crossed":
        pairs = [(contact, CROSSED.get(contact, contact)) for contact in first]
        return tuple((a, b) for a, b in pairs if b in second)
    same = tuple((contact, contact) for contact in first if contact in second)
    if wiring == "straight" and same:
        return same
    return _adapted(plugs, Wiring.TYPE_B if wiring == "type-b" else Wiring.TYPE_A)


def _adapted(plugs: tuple[str, str], kind: Wiring) -> tuple[tuple[str, str], ...] | None:
    """Contacts joined by an adapter lead between DIN and a three-contact jack plug."""
    din, jack = SIGNALS[Wiring.DIN], SIGNALS[kind]
    pairs = [(a, b) for a, b in zip(_three(din), _three(jack), strict=True) if a and b]
    sides = tuple(plug.split("-")[0].rstrip("57") for plug in plugs)
    if sides == ("din", "trs"):
        return tuple(pairs)
    if sides == ("trs", "din"):
        return tuple((b, a) for a, b in pairs)
    return None


def _three(signals: Signals) -> tuple[str | None, str, str | None]:
    return signals.source, signals.sink, signals.shield
