"""A chart: all that is known of one model of unit.

Every field that may be None is a fact that a manual may leave out. None is never read as "no".
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType

from thruline.rig.controller import Abilities, Loop, PedalInput
from thruline.rig.power import Need, Outlet
from thruline.rig.programs import Numbering
from thruline.rig.readings import Readings
from thruline.rig.socket import Socket
from thruline.rig.values import Control

NO_ODDS: Mapping[str, float] = MappingProxyType({})
"""Nothing is likelier than usual."""


class Way(StrEnum):
    """What an output does with what comes in."""

    THRU_WIRE = "thru-wire"
    """An electrical copy of the input, without own messages."""
    THRU_SOFT = "thru-soft"
    """Sends again what it received, after receiving it."""
    MERGE = "merge"
    """Sends again what it received, and its own messages."""
    OWN = "own"
    """Its own messages only."""
    OFF = "off"
    """Nothing at all."""

    @property
    def forwards(self) -> bool:
        """Whether what comes in goes out again."""
        return self in (Way.THRU_WIRE, Way.THRU_SOFT, Way.MERGE)


class Traffic(StrEnum):
    """Kinds of traffic that a unit may take or an output may hold back."""

    PROGRAM = "program"
    CONTROL = "control"
    NOTE = "note"
    CLOCK = "clock"
    REAL_TIME = "real-time"
    SYSTEM_EXCLUSIVE = "system-exclusive"
    OWN_CHANNEL = "own-channel"


class Governs(StrEnum):
    """What a setting decides."""

    OUTPUT = "output"
    PROGRAM_RECEIVE = "program-receive"
    CONTROL_RECEIVE = "control-receive"
    CLOCK_RECEIVE = "clock-receive"
    SYSTEM_EXCLUSIVE_RECEIVE = "system-exclusive-receive"
    OMNI = "omni"
    CLOCK_SEND = "clock-send"
    PROGRAM_SEND = "program-send"
    CONTROL_SEND = "control-send"
    EXPRESSION_WIRING = "expression-wiring"
    OUTLET_VOLTAGE = "outlet-voltage"
    OTHER = "other"


class Meanwhile(StrEnum):
    """What happens to control changes while a unit loads a program."""

    LOST = "lost"
    HELD = "held"
    OBEYED = "obeyed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Output:
    """A MIDI output. `sources` are the inputs it forwards; `skew_ns` is for electrical copies."""

    socket: str
    ways: tuple[Way, ...]
    sources: tuple[str, ...]
    latency_us: int | None
    by_byte: bool
    blocks: frozenset[Traffic]
    buffer_bytes: int | None
    skew_ns: int | None
    running_status: bool | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """A menu item: `means` gives for each value what it stands for ("on", "off", a way)."""

    id: str
    name: str
    values: tuple[str, ...]
    factory: str
    where: str
    governs: Governs
    socket: str | None
    means: Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class ChannelRule:
    """How the unit picks what is addressed to it; `omni` is never, always or setting."""

    allowed: tuple[int, ...]
    factory: int | None
    omni: str
    occupies: int
    where: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Settle:
    """Loading a program takes `load_us`; controls meanwhile; a control takes `apply_us`."""

    load_us: int
    controls: Meanwhile | None
    apply_us: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Receives:
    """What kinds of message the unit takes at all; None where the chart does not say."""

    program: bool | None
    control: bool | None
    clock: bool | None
    system_exclusive: bool | None
    running_status: bool
    buffer_bytes: int | None
    longest_rate: int | None
    note: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Send:
    """Something the unit transmits of its own accord, and the setting that turns it on."""

    what: str
    setting: str | None
    factory: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Expression:
    """An expression pedal as an electrical thing; lowest and highest are uncalibrated 0 to 127."""

    wiring: str
    ohms: int | None
    taper: str | None
    lowest: int
    highest: int
    flicker: int


@dataclass(frozen=True, slots=True)
class Bond:
    """Two sockets of a passive unit joined inside, contact to contact."""

    first: str
    second: str
    contacts: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Footprint:
    """Outer size in mm."""

    width: int
    depth: int
    height: int


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a fact of the chart comes from, and who checked it."""

    fact: str
    place: str
    checked_by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """All that is known of one model of unit.

    `odds` say of kinds of fault how many times likelier than usual they are.
    """

    id: str
    maker: str
    model: str
    kind: str
    about: str = ""
    firmware: str = ""
    origins: tuple[Origin, ...] = ()
    size: Footprint | None = None
    sockets: Mapping[str, Socket]
    bonds: tuple[Bond, ...] = ()
    outputs: Mapping[str, Output]
    settings: Mapping[str, Setting]
    channel: ChannelRule | None = None
    programs: Numbering | None = None
    controls: Mapping[str, Control]
    readings: Readings
    settle: Settle | None = None
    receives: Receives
    sends: tuple[Send, ...] = ()
    identity: tuple[int, ...] = ()
    power: Need | None = None
    outlets: Mapping[str, Outlet]
    supply_milliwatts: int | None = None
    loops: Mapping[str, Loop]
    abilities: Abilities | None = None
    pedals: Mapping[str, PedalInput]
    expression: Expression | None = None
    odds: Mapping[str, float] = field(default_factory=lambda: NO_ODDS)

    @property
    def full_name(self) -> str:
        """Maker and model."""
        return f"{self.maker} {self.model}"

    @property
    def listens(self) -> bool:
        """Whether it acts on channel messages at all (splits, merges and supplies do not)."""
        return self.channel is not None
