"""Sockets: connectors with their contacts, and how signals lie on them."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType


class SocketKind(StrEnum):
    """What a socket is for."""

    MIDI_IN = "midi-in"
    MIDI_OUT = "midi-out"
    MIDI = "midi"
    """Either direction: the two sides of a passive adapter."""
    USB = "usb"
    EXPRESSION_IN = "expression-in"
    EXPRESSION_OUT = "expression-out"
    SWITCH_IN = "switch-in"
    """For a foot switch: tap, bypass, or the channels of an amplifier."""
    SWITCH_OUT = "switch-out"
    """Contacts that stand for a foot switch of another unit."""
    AUDIO_IN = "audio-in"
    AUDIO_OUT = "audio-out"
    POWER_IN = "power-in"
    POWER_OUT = "power-out"


class Wiring(StrEnum):
    """How the MIDI current loop lies on the contacts of a socket."""

    DIN = "din"
    TYPE_A = "type-a"
    TYPE_B = "type-b"
    TS = "ts"
    TIP_ACTIVE = "tip-active"
    RING_ACTIVE = "ring-active"


@dataclass(frozen=True, slots=True)
class Signals:
    """On which contact each signal of a MIDI link lies; None where it has none.

    On an output `source` gives the current and `sink` takes it back switched by the data. On an
    isolated input the same names say which contact wants to meet them. `voltage` marks sockets that
    carry the data as a voltage between `sink` and `shield`, without a current loop.
    """

    source: str | None
    sink: str
    shield: str | None
    voltage: bool = False


SIGNALS: Mapping[Wiring, Signals] = MappingProxyType(
    {
        # CA-033: source on contact 4, switched sink on 5, shield on 2.
        Wiring.DIN: Signals("4", "5", "2"),
        # RP-054: sink on tip, source on ring.
        Wiring.TYPE_A: Signals("ring", "tip", "sleeve"),
        # Trade usage before RP-054: the pair swapped.
        Wiring.TYPE_B: Signals("tip", "ring", "sleeve"),
        # Trade usage: a two-wire loop on a mono jack.
        Wiring.TS: Signals("tip", "sleeve", None),
        Wiring.TIP_ACTIVE: Signals(None, "tip", "sleeve", voltage=True),
        Wiring.RING_ACTIVE: Signals(None, "ring", "sleeve", voltage=True),
    }
)

CONTACTS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "din5": ("1", "2", "3", "4", "5"),
        "din7": ("1", "2", "3", "4", "5", "6", "7"),
        "trs-2.5": ("tip", "ring", "sleeve"),
        "trs-3.5": ("tip", "ring", "sleeve"),
        "trs-6.35": ("tip", "ring", "sleeve"),
        "ts-3.5": ("tip", "sleeve"),
        "ts-6.35": ("tip", "sleeve"),
        "barrel-2.1": ("centre", "outer"),
        "barrel-2.5": ("centre", "outer"),
        "usb-a": ("usb",),
        "usb-b": ("usb",),
        "usb-c": ("usb",),
        "mains": ("live", "neutral", "earth"),
    }
)
"""The contacts of every connector, in the order people name them."""

PLUG_FITS: Mapping[str, frozenset[str]] = MappingProxyType(
    {
        "din5": frozenset({"din5", "din7"}),
        "ts-3.5": frozenset({"ts-3.5", "trs-3.5"}),
        "ts-6.35": frozenset({"ts-6.35", "trs-6.35"}),
        "trs-3.5": frozenset({"trs-3.5", "ts-3.5"}),
        "trs-6.35": frozenset({"trs-6.35", "ts-6.35"}),
    }
)
"""Sockets that a plug goes into, where that is more than its own kind (a 5-pin DIN plug enters a
7-pin socket but not the other way round; TS and TRS plugs of one size enter each other's)."""


def plug_fits(plug: str, socket: str) -> bool:
    """Whether the plug goes into the socket, electrically right or not."""
    return socket in PLUG_FITS.get(plug, frozenset({plug}))


def usual_wiring(connector: str) -> Wiring | None:
    """The wiring of a MIDI socket whose connector has only one; None where several are in use."""
    return Wiring.DIN if connector.startswith("din") else None


def is_jack(connector: str) -> bool:
    """Whether it is a jack, on which MIDI lies in one of several ways."""
    return connector.startswith(("trs", "ts-"))


@dataclass(frozen=True, slots=True)
class Spread:
    """Where a socket sits on its unit: the side, and mm along it from the left or the back."""

    side: str
    along: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Socket:
    """One socket of a model of unit.

    `marked` is what is printed beside it, as far as known; `isolated` is None when the chart does
    not say.
    """

    id: str
    kind: SocketKind
    connector: str
    wiring: Wiring | None
    marked: str = ""
    isolated: bool | None = None
    spare_power: bool = False
    place: Spread | None = None

    @property
    def contacts(self) -> tuple[str, ...]:
        """The contacts of its connector."""
        return CONTACTS[self.connector]


MIDI_KINDS = frozenset({SocketKind.MIDI_IN, SocketKind.MIDI_OUT, SocketKind.MIDI, SocketKind.USB})
"""Kinds of socket that carry MIDI."""
GIVES = frozenset({
    SocketKind.MIDI_OUT, SocketKind.EXPRESSION_OUT, SocketKind.SWITCH_OUT, SocketKind.AUDIO_OUT,
    SocketKind.POWER_OUT,
})  # fmt: skip
"""Kinds of socket that something comes out of."""
TAKES = frozenset({
    SocketKind.MIDI_IN, SocketKind.EXPRESSION_IN, SocketKind.SWITCH_IN, SocketKind.AUDIO_IN,
    SocketKind.POWER_IN,
})  # fmt: skip
"""Kinds of socket that something goes into."""
