"""The ports that several rigs share: what there is, what has come and gone, who uses which."""

from collections.abc import Iterable, Sequence
from contextlib import AbstractContextManager, nullcontext
from typing import NamedTuple

from thruline.base.errors import CannotUse
from thruline.bench.face import WallClock
from thruline.bench.plugged import HeldInput, HeldOutput
from thruline.bench.port_names import bare_name, equals_of
from thruline.bench.systems import Systems

LOOK_US = 1_000_000
"""How often the lists are asked for anew."""
MOST_NEWS = 20


class Noticed(NamedTuple):
    """Something that was plugged in or pulled out, numbered from 1."""

    number: int
    says: str


class PortList:
    """One list for all rigs of a workbench.

    A port to send to is for one rig at a time, so that two do not talk into one another's line.
    Where their benches ask on threads of their own, `lock` (one that a thread may take twice) lets
    in one after the other.
    """

    def __init__(
        self,
        systems: Systems,
        clock: WallClock,
        *,
        lock: AbstractContextManager[object] | None = None,
    ) -> None:
        self._systems = systems
        self._clock = clock
        self._look_us: int | None = None
        self._holders: dict[str, str] = {}
        self._lock = lock or nullcontext()
        self.inputs: tuple[str, ...] = ()
        self.outputs: tuple[str, ...] = ()
        self.news: tuple[Noticed, ...] = ()
        self.turn = 0

    @property
    def troubles(self) -> tuple[str, ...]:
        """What is missing of the systems of ports."""
        return self._systems.troubles

    def look(self, *, at_once: bool = False) -> None:
        """See what is plugged in now, unless that was done a moment ago."""
        with self._lock:
            self._look(at_once=at_once)

    def _look(self, *, at_once: bool) -> None:
        now, first = self._clock.now_us(), self._look_us is None
        if not at_once and self._look_us is not None and now < self._look_us:
            return
        self._look_us = now + LOOK_US
        before = {*self.inputs, *self.outputs}, self.troubles
        self.inputs, self.outputs = self._systems.inputs(), self._systems.outputs()
        there = {*self.inputs, *self.outputs}
        if first or (there, self.troubles) != before:
            self.turn += 1
        if not first:
            self._tell(before[0], there)

    def _tell(self, before: set[str], there: set[str]) -> None:
        groups = sorted({bare_name(name) for name in before ^ there})
        rows = [row for one in groups for row in _changes(one, before=before, there=there)]
        for row in rows:
            number = self.news[-1].number + 1 if self.news else 1
            self.news = (*self.news[1 - MOST_NEWS :], Noticed(number, row))

    def holder(self, name: str) -> str:
        """The rig that uses an output; empty when none does."""
        holders = self._holders
        if name in holders:
            return holders[name]
        gone = [one for one in equals_of(name, [*holders]) if one not in self.outputs]
        return holders[gone[0]] if gone else ""  # it may have come back under this name

    def claim(self, names: Iterable[str], *, rig: str) -> None:
        """Keep outputs for a rig. Raises CannotUse when another has one of them."""
        names = list(names)
        with self._lock:
            for name in names:
                other = self.holder(name)
                if other not in ("", rig):
                    raise CannotUse(
                        f'"{name}" is in use at the bench of the rig "{other}"; let go there first'
                    )
            self.release(rig)
            self._holders = {**self._holders, **dict.fromkeys(names, rig)}
            self.turn += 1

    def release(self, rig: str) -> None:
        """Let others use what a rig had."""
        with self._lock:
            kept = {name: one for name, one in self._holders.items() if one != rig}
            if kept != self._holders:
                self._holders = kept
                self.turn += 1

    def open_inputs(self, names: Sequence[str]) -> list[HeldInput]:
        """Ports to listen to. Raises WorldFailed when one cannot be; none stays open then."""
        found: list[HeldInput] = []
        try:
            for name in names:
                found.append(HeldInput(self._systems, name, self._clock))
                found[-1].take()  # what waited there from before is not part of this session
        except BaseException:
            for one in found:
                one.close()
            raise
        return found

    def open_outputs(self, names: Sequence[str]) -> list[HeldOutput]:
        """Ports to send to, without a guard; otherwise as `open_inputs`."""
        found: list[HeldOutput] = []
        try:
            found.extend(HeldOutput(self._systems, name) for name in names)
        except BaseException:
            for one in found:
                one.close()
            raise
        return found


def _changes(bare: str, *, before: set[str], there: set[str]) -> list[str]:
    """What happened to the ports of one name, numbers apart."""
    was, now = (sorted(equals_of(bare, [*names])) for names in (before, there))
    came, went = sorted({*now} - {*was}), sorted({*was} - {*now})
    if not (came and went) or len(now) == len(was):
        went_says = [f'"{name}" was pulled out' for name in went]
        return [*(f'"{name}" was plugged in' for name in came), *went_says]
    listed = ", ".join(f'"{name}"' for name in now)
    what = "another" if len(now) > len(was) else "one"
    deed = "plugged in" if len(now) > len(was) else "pulled out"
    return [f'{what} "{bare}" was {deed}; now: {listed}']
