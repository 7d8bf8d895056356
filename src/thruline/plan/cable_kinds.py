"""Facts about cables that the trade goes by: kinds, plugs, bends, lengths that are sold."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from thruline.rig.socket import MIDI_KINDS, SocketKind


@dataclass(frozen=True, slots=True, kw_only=True)
class CableKind:
    """One kind of cable: the letter of its numbers, its wire, the tightest bend, the longest run.

    Measures in mm; `longest` is None where nothing but taste limits it.
    """

    name: str
    letter: str
    wire: str
    bend: int
    longest: int | None = None


MIDI = CableKind(
    name="MIDI", letter="M", wire="shielded twisted pair", bend=25, longest=15_000
)  # CA-033: 15 m
USB = CableKind(name="USB", letter="U", wire="ready-made USB cable", bend=25, longest=5000)
EXPRESSION = CableKind(name="expression", letter="E", wire="two cores, shielded", bend=25)
SWITCH = CableKind(name="switch", letter="S", wire="two cores, shielded", bend=25)
AUDIO = CableKind(name="audio", letter="A", wire="one core, shielded", bend=20)
POWER = CableKind(name="power", letter="P", wire="twin, at least 0.5 mm² each", bend=15)
KINDS = (MIDI, USB, EXPRESSION, SWITCH, AUDIO, POWER)

_BY_SOCKET: Mapping[SocketKind, CableKind] = MappingProxyType(
    {
        **dict.fromkeys(MIDI_KINDS, MIDI),
        SocketKind.EXPRESSION_IN: EXPRESSION,
        SocketKind.EXPRESSION_OUT: EXPRESSION,
        SocketKind.SWITCH_IN: SWITCH,
        SocketKind.SWITCH_OUT: SWITCH,
        SocketKind.AUDIO_IN: AUDIO,
        SocketKind.AUDIO_OUT: AUDIO,
        SocketKind.POWER_IN: POWER,
        SocketKind.POWER_OUT: POWER,
    }
)

ADAPTER_LONGEST = 2000
"""A lead from DIN to a jack is at most this long (RP-054), mm."""


@dataclass(frozen=True, slots=True)
class PlugSize:
    """How far a plug stands out of its socket, straight and angled, with its first bend, mm."""

    straight: int
    angled: int | None


PLUGS: Mapping[str, PlugSize] = MappingProxyType(
    {
        "din5": PlugSize(50, 26),
        "din7": PlugSize(50, 26),
        "trs-6.35": PlugSize(45, 20),
        "ts-6.35": PlugSize(45, 20),
        "trs-3.5": PlugSize(30, 14),
        "ts-3.5": PlugSize(30, 14),
        "trs-2.5": PlugSize(28, 13),
        "barrel-2.1": PlugSize(32, 14),
        "barrel-2.5": PlugSize(32, 14),
        "usb-a": PlugSize(40, 20),
        "usb-b": PlugSize(40, 22),
        "usb-c": PlugSize(28, 15),
        "mains": PlugSize(60, None),
    }
)
"""Usual sizes, on the safe side; a particular plug may be shorter."""

STEP = 50
"""Cables that one makes are rounded up to this, mm."""
SHORTEST = 100
"""Shorter ones cannot be soldered decently, mm."""
SOLD = (
    150, 300, 450, 600, 900, 1200, 1500, 2000, 3000, 5000, 6000, 8000, 10_000, 12_000, 15_000,
    20_000,
)  # fmt: skip
"""Lengths that cables are sold in, mm."""
ENDS = 2 * 15
"""What the two ends of a cable take to be prepared, mm."""
SAW = 2
"""What a cut takes, mm."""


def kind_of(start: SocketKind, stop: SocketKind, plugs: tuple[str, str]) -> CableKind:
    """The kind of the cable between two sockets; what comes out decides."""
    if any(plug.startswith("usb") for plug in plugs) and SocketKind.POWER_OUT is not start:
        return USB
    return _BY_SOCKET.get(start) or _BY_SOCKET[stop]


def made_length(least: float) -> int:
    """The length that one makes for a cable that has to be at least so long."""
    return max(SHORTEST, -int(-least // STEP) * STEP)


def sold_length(least: float) -> int:
    """The next length that is sold; beyond the longest, one that is made."""
    return next((one for one in SOLD if one >= least), made_length(least))
