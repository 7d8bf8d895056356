"""What a foot controller can keep and do."""

from dataclasses import dataclass
from enum import StrEnum


class OrderAbility(StrEnum):
    """Whether the order of a preset's messages can be chosen, or how the controller fixes it."""

    FREE = "free"
    BY_UNIT = "by-unit"
    """Unit by unit in channel order, each unit's program first and then its controls."""
    PROGRAMS_FIRST = "programs-first"
    """All program changes in channel order, then all controls."""


class Routing(StrEnum):
    """Which of its MIDI outputs a controller sends a message over."""

    ALL = "all"
    """Every message over every output."""
    BY_MESSAGE = "by-message"
    """Over the output that is chosen for the message when it is programmed."""
    BY_UNIT = "by-unit"
    """Over the output that is chosen for its unit, once, in the controller's own set-up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pauses:
    """Pauses that can be put between messages: whole steps up to the longest, in ms."""

    step_ms: int
    longest_ms: int
    count: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PedalInput:
    """One expression input. `interval_ms` is the least time between two values of a move."""

    socket: str
    moves: int
    curves: frozenset[str]
    reverse: bool
    interval_ms: int | None
    on_recall: bool
    calibrates: bool
    wiring: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Loop:
    """A relay loop: `send` and `back` are ids of audio sockets."""

    id: str
    send: str
    back: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Abilities:
    """A controller's limits. None means that the chart does not say."""

    presets: int
    first_preset: int
    name_length: int | None
    messages: int | None
    order: OrderAbility
    pauses: Pauses | None
    programs_from: int
    sends: frozenset[str]
    running_status: bool | None
    gap_us: int
    routing: Routing = Routing.ALL
