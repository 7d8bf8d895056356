"""What follows from units, settings and cables alone, whatever the presets are."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from types import MappingProxyType
from typing import TypeVar, cast

from thruline.compose.jobs import Means
from thruline.compose.preset import Sender, sender_of
from thruline.path.hearing import Hearing, read_hearing
from thruline.path.network import Network, read_network
from thruline.path.routing import Routing, read_routing
from thruline.proof.apart import hear_alike, nature_of, units_apart
from thruline.proof.finding import Result
from thruline.proof.kept import Kept
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig
from thruline.timing.receive import Listener
from thruline.timing.roads import Roads, roads_of
from thruline.timing.run import Hand, listeners_of

T = TypeVar("T")
NO_SENDER = Sender(means=Means(pauses=None), gap_us=0, running_status=False)
"""For a unit whose chart says nothing of a controller: it can order, not pause."""


@dataclass(frozen=True)  # without slots: each stage is computed when first asked for, and kept
class Board:
    """The board half of a rig; `results` keeps what board rules found."""

    rig: Rig
    results: dict[str, tuple[Result, ...]] = field(default_factory=dict)
    _waits_key: int | None = None
    _kept: dict[str, tuple[object, object]] = field(default_factory=dict)

    def kept(self, name: str, of: object, make: Callable[[], T]) -> T:
        """Something made of this board and `of`, kept as long as that stays equal."""
        known = self._kept.get(name)
        if known is None or known[0] != of:
            self._kept[name] = known = (of, make())
        return cast(T, known[1])

    @cached_property
    def network(self) -> Network:
        """Links and outputs: who can hear whom."""
        return read_network(self.rig)

    @cached_property
    def hearing(self) -> Hearing:
        """For every source of messages, who hears it and over which way."""
        return read_hearing(self.network)

    @cached_property
    def routing(self) -> Routing:
        """Over which output the controller addresses each unit, where it chooses one."""
        return read_routing(self.network, self.hearing, self.rig.controller)

    @cached_property
    def roads(self) -> Roads:
        """The same as lines to be played."""
        return roads_of(self.network, self.rig.controller, self.routing)

    def waits_key(self, kept: Kept) -> int:
        """A number that boards share on which the same jobs need the same waits.

        Their lines carry messages in the same way and time to the same units, which are alike but
        for their channels (see `units_apart`), or the very same where channels make a difference.
        """
        if self._waits_key is None:
            moved = self.units_apart is not None
            units = [nature_of(one) if moved else id(one.unit) for one in self.listeners]
            kept.hold(one.unit for one in self.listeners)
            inputs = tuple(self.roads.inputs.items())
            sent = tuple(self.roads.sender_of.items())
            key = kept.number_of((self.roads.network.lines, inputs, self.hand, tuple(units), sent))
            object.__setattr__(self, "_waits_key", key)
            return key
        return self._waits_key

    @cached_property
    def units_apart(self) -> Mapping[str, Unit] | None:
        """As `units_apart`."""
        return units_apart(self.rig.units, self.roads.network)

    @cached_property
    def for_waits(self) -> "Board":
        """The board on which waits are found: this one, or one like it with units kept apart."""
        apart = self.units_apart
        if apart is None or hear_alike(self.rig.units, apart):
            return self
        board = Board(replace(self.rig, units=MappingProxyType(apart)))
        board.__dict__["roads"] = self.roads  # the lines are the same
        return board

    @cached_property
    def listeners(self) -> tuple[Listener, ...]:
        """The units that act on channel messages."""
        return listeners_of(self.rig.units.values())

    @cached_property
    def sender(self) -> Sender:
        """How the controller orders and pauses.

        One that chooses between outputs is taken to send every status byte.
        """
        controller = self.rig.controller
        abilities = controller.chart.abilities if controller else None
        sender = sender_of(abilities) if abilities else NO_SENDER
        return replace(sender, running_status=False) if self.routing.chooses else sender

    @cached_property
    def hand(self) -> Hand:
        """How the controller hands messages to its outputs."""
        return Hand(gap_us=self.sender.gap_us, running_status=self.sender.running_status)


def same_board(one: Rig, other: Rig) -> bool:
    """Whether two rigs agree in everything but presets, sweeps, songs and acceptances."""
    return (
        one.controller == other.controller
        and _same_units(one, other)
        and one.cables == other.cables
        and one.audio == other.audio
        and one.board == other.board
        and one.slowest_change_us == other.slowest_change_us
    )


def _same_units(one: Rig, other: Rig) -> bool:
    mine: Mapping[str, object] = one.units
    return list(mine) == list(other.units) and all(
        unit is other.units[key] or unit == other.units[key] for key, unit in mine.items()
    )
