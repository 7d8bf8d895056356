"""A suspect: one thing that may be wrong, as a change of the board or of what is sent over it."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType
from typing import TypeAlias

from thruline.find.kind_rows import ROWS
from thruline.find.kinds import Kind
from thruline.rig.cable import Jack
from thruline.rig.whole import Rig
from thruline.timing.receive import Arrival
from thruline.timing.sending import Item

Sendings: TypeAlias = Mapping[int, tuple[Item, ...]]
"""What the controller's memory holds, by the number of the preset."""

Arrivals: TypeAlias = tuple[Arrival, ...]
"""What comes to the inputs of a unit, in the order of its arrival."""


class Reach(StrEnum):
    """What a change can touch, so that no more is worked out again than that."""

    WIRES = "wires"
    """Who hears whom."""
    EAR = "ear"
    """What one unit makes of what it hears."""
    MEMORY = "memory"
    """What the controller sends."""
    DUMPS = "dumps"
    """What gets through besides programs and controls."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What a fault does to a board, or to what is sent.

    Changes with one `key` do the same. `on` is the unit or the cable (by its name in addresses)
    that is changed; a check that takes it out of the way takes the change with it. Changes `alike`
    do the same to who hears whom, as long as neither is out of the way. One that does nothing but
    silence sockets names them in `silences`: where none of them is plugged in it does not matter.
    """

    key: str
    alike: str = ""
    silences: frozenset[Jack] = frozenset()
    reach: Reach
    on: str
    of_rig: Callable[[Rig], Rig] | None = field(default=None, compare=False)
    of_memory: Callable[[Sendings], Sendings] | None = field(default=None, compare=False)
    of_arrivals: Callable[[Arrivals], Arrivals] | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspect:
    """One thing that may be wrong.

    `on` names the thing in the document, `what` as people call it. `changes` put it into the rig.
    `shows` tells what looking at a thing itself would show: a socket, a menu, a pedal; by the name
    of that look. `odds` are relative, before anyone has looked. `to` ends the words of the mend:
    which value, and where it is found.
    """

    kind: Kind
    on: str
    what: str
    changes: tuple[Change, ...] = ()
    shows: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    odds: float = 1.0
    to: str = ""

    @property
    def id(self) -> str:
        """A name that stays the same from search to search."""
        return f"{self.kind}@{self.on}"

    @property
    def says(self) -> str:
        """What is wrong, as a sentence without its full stop."""
        return ROWS[self.kind].says.format(what=self.what)

    @property
    def mend(self) -> str:
        """What is done about it."""
        return ROWS[self.kind].mend.format(what=self.what) + self.to

    @property
    def mend_key(self) -> str:
        """The same for suspects that one action mends."""
        return f"{ROWS[self.kind].action}@{self.on}"

    @property
    def sometimes(self) -> bool:
        """Whether it comes and goes."""
        return ROWS[self.kind].sometimes

    @property
    def alike(self) -> frozenset[str]:
        """What its changes do to who hears whom."""
        return frozenset(change.alike or change.key for change in self.changes)


def put_in(rig: Rig, changes: Iterable[Change]) -> Rig:
    """The rig with these changes of the board made."""
    for change in changes:
        if change.of_rig is not None:
            rig = change.of_rig(rig)
    return rig


def send_instead(sendings: Sendings, changes: Iterable[Change]) -> Sendings:
    """What is sent, with these changes of the memory made."""
    for change in changes:
        if change.of_memory is not None:
            sendings = change.of_memory(sendings)
    return sendings
