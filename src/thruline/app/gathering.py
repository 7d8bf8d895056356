"""Answers and dumps on ports that stay open: identity, and a unit's memory saved and sent back."""

from collections.abc import Iterable

from thruline.app.frame import Json
from thruline.app.gather import Gathering
from thruline.audit.capture import Entry
from thruline.base.errors import CannotUse, WorldFailed
from thruline.bench.backup import Store, backup_from
from thruline.bench.face import PortGone
from thruline.bench.identity import WAIT_US, answers
from thruline.midi.words import counted
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig

QUIET_US = 6_000_000
"""A dump is over when nothing has come for this long. Some ports hand over whole messages, and one
of 16,000 bytes takes five seconds on the line."""
LOOK_TOO = (
    "See on the unit, too, that its dump has ended: if it still sends, back it up again over a "
    "serial line"
)
"""Nobody tells how long the longest message is that is still to come."""
PATIENCE_US = 120_000_000
"""How long a dump may take to begin: people look for the menu item."""
NOBODY = (
    "Nobody answered. That proves nothing: answering is optional, and an answer needs a cable from "
    "the unit's MIDI OUT back to the port that is listened to."
)


def waits_says() -> str:
    """When a dump is over, and why so late, in words."""
    return (
        f"it is over once nothing has come for {QUIET_US / 1_000_000:.3g} s, for some ports hand "
        "over a long message only when all of it has come"
    )


class Identifying:
    """Who answers the identity request."""

    def __init__(self, rig: Rig, now_us: int) -> None:
        self._units = [(name, unit.chart) for name, unit in rig.units.items()]
        self._gathering = Gathering(until_us=now_us + WAIT_US, quiet_us=WAIT_US // 2)
        self.is_over = False

    def hear(self, entries: Iterable[Entry], now_us: int) -> None:
        """Take in what came."""
        self.is_over = self.is_over or self._gathering.hear(entries, now_us)

    def as_json(self) -> Json:
        """What was answered, for a page."""
        found = [one.says for one in answers(self._gathering.events, self._units)]
        says = self._gathering.trouble
        if not says and not found and self.is_over:
            says = NOBODY
        return {"is_over": self.is_over, "answered": found, "says": says}


class Saving:
    """A unit's memory on its way in."""

    def __init__(self, unit: Unit, *, name: str, date: str, now_us: int, rig: str) -> None:
        self._rig = rig
        self._unit, self._name, self._date = unit, name, date
        self._gathering = Gathering(until_us=now_us + PATIENCE_US, quiet_us=QUIET_US)
        self.is_over = False
        self.says = f"Start the dump on {unit.name} now, in its own menu."

    def hear(self, entries: Iterable[Entry], now_us: int, store: Store) -> None:
        """Take in what came, and keep it once it is whole."""
        if self.is_over:
            return
        self.is_over = self._gathering.hear(entries, now_us)
        if self._gathering.count:
            came = counted(self._gathering.count)
            self.says = f"{came} came from {self._unit.name} so far; {waits_says()}"
        if self.is_over:
            self._keep(store)

    def stop(self) -> None:
        """Somebody gives it up: what has come is not kept."""
        self.is_over = True
        self.says = f"Stopped: nothing was kept of {self._unit.name}."

    def fail(self, says: str) -> None:
        """Something of it may have been lost: what has come is not kept."""
        self.is_over = True
        self.says = f"Not kept: {says}"

    def _keep(self, store: Store) -> None:
        unit = self._unit
        try:
            if self._gathering.trouble:
                raise PortGone(self._gathering.trouble)
            found = backup_from(
                self._gathering.events,
                unit=unit.id,
                name=self._name,
                chart=unit.chart.id,
                date=self._date,
                rig=self._rig,
            )
            store.keep(unit.id, self._name, raw=found.raw, facts=found.facts)
        except (CannotUse, WorldFailed) as trouble:
            self.says = f"Not kept: {trouble.says}"
            return
        self.says = (
            f'Kept as "{self._name}" of {unit.name}: {found.size_says}, '
            f"checksum: {found.guarding.kind.value}. {LOOK_TOO}"
        )

    def as_json(self) -> Json:
        """Where it stands, for a page."""
        return {"unit": self._unit.id, "is_over": self.is_over, "says": self.says}
