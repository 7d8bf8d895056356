"""Several ports sent to together: one that goes does not stop the others, and may catch up."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from thruline.base.errors import WorldFailed
from thruline.bench.face import OutPort, PortGone, WallClock
from thruline.bench.send import Planned, in_time, silence

WATCH_US = 200_000
"""How often ports are looked at while the next message has to wait.

A plug with a loose contact is back before a second has gone; what was open is not.
"""


class Way(NamedTuple):
    """A port, and the output of the controller that it stands for; None for all of them."""

    port: OutPort
    over: str | None = None

    @property
    def says(self) -> str:
        """The port, and what it stands for."""
        return f"{self.port.name} (for {self.over})" if self.over else self.port.name

    def takes(self, message: Planned) -> bool:
        """Whether a message leaves by this one."""
        return self.over is None or message.over in (None, self.over)


@dataclass(frozen=True, slots=True, kw_only=True)
class Took:
    """What one way was given of some messages.

    `trouble` is why it took no more; empty when nothing was the matter, though it may have been
    stopped before all was sent.
    """

    way: Way
    wanted: tuple[Planned, ...]
    count: int
    trouble: str = ""

    @property
    def sent(self) -> tuple[Planned, ...]:
        """What was handed over."""
        return self.wanted[: self.count]


class _Heads:
    """Ways that are played to: how much each was given, and what went wrong with it."""

    def __init__(self, ways: Sequence[Way], wanted: Sequence[Sequence[Planned]]) -> None:
        self._ways = ways
        self._there = [place for place, own in enumerate(wanted) if own]
        self.counts, self.troubles = [0] * len(ways), [""] * len(ways)

    @property
    def is_over(self) -> bool:
        """Whether no way is there any more."""
        return not self._there

    def each(self, deed: Callable[[OutPort], None]) -> None:
        """Do something with every port that is there."""
        for place in tuple(self._there):
            self._do(place, deed)

    def hand_over(self, message: Planned) -> None:
        """Send a message by every way that takes it and is there."""
        for place in tuple(self._there):
            if self._ways[place].takes(message):
                self.counts[place] += self._do(place, lambda port: port.send(message.data))

    def _do(self, place: int, deed: Callable[[OutPort], None]) -> bool:
        """Whether it could be done; when not, that way is played to no more."""
        try:
            deed(self._ways[place].port)
        except WorldFailed as trouble:
            self.troubles[place] = trouble.says
            self._there.remove(place)
            return False
        return True


class _Watching:
    """A clock whose waits are used to look whether the ports are there."""

    def __init__(
        self, clock: WallClock, look: Callable[[], None], goes_on: Callable[[], bool]
    ) -> None:
        self._clock, self._look, self._goes_on = clock, look, goes_on

    def now_us(self) -> int:
        """The present."""
        return self._clock.now_us()

    def wait_until(self, moment_us: int) -> None:
        """Come back at that moment, or sooner when nothing goes on."""
        while moment_us - (now_us := self._clock.now_us()) > WATCH_US:
            self._clock.wait_until(now_us + WATCH_US)
            self._look()
            if not self._goes_on():
                return
        self._clock.wait_until(moment_us)


def play_parted(
    messages: Iterable[Planned],
    ways: Sequence[Way],
    clock: WallClock,
    *,
    goes_on: Callable[[], bool] = lambda: True,
    lands: bool = True,
) -> tuple[Took, ...]:
    """Send each message at its time to every way that takes it; what each way was given.

    A port that goes is given nothing more, and the others go on to the end: half of a preset on
    one line is trouble enough. When all are gone it ends.

    Each port is looked at before the first message, now and then, and after the last one: once this
    has left, or at once without `lands`, where the next messages follow soon.
    """
    listed = tuple(messages)
    wanted = [tuple(one for one in listed if way.takes(one)) for way in ways]
    heads = _Heads(ways, wanted)

    def look() -> None:
        heads.each(lambda port: port.look())

    def goes() -> bool:
        return goes_on() and not heads.is_over

    look()
    for _, message in in_time(listed, _Watching(clock, look, goes), goes_on=goes):
        heads.hand_over(message)
    if goes():
        heads.each(lambda port: port.land() if lands else port.look())
    return tuple(
        Took(way=way, wanted=own, count=count, trouble=trouble)
        for way, own, count, trouble in zip(ways, wanted, heads.counts, heads.troubles, strict=True)
    )


def look_at_every(ways: Iterable[Way], *, land: bool = False) -> None:
    """See that every port is there, with `land` once all has left. Raises PortGone, naming all."""
    troubles: list[str] = []
    for way in ways:
        try:
            if land:
                way.port.land()
            else:
                way.port.look()
        except WorldFailed as trouble:
            troubles.append(trouble.says)
    if troubles:
        raise PortGone("; ".join(troubles))


def play_again(
    lost: Iterable[Took], clock: WallClock, *, goes_on: Callable[[], bool] = lambda: True
) -> tuple[Took, ...]:
    """All that was meant for ports that went, from its first message, one port after the other.

    What was handed over last before a port went may never have left, so nothing is left out.
    """
    found: list[Took] = []
    for one in lost:
        first_us = one.wanted[0].at_us if one.wanted else 0
        moved = [replace(each, at_us=each.at_us - first_us) for each in one.wanted]
        found += play_parted(moved, [one.way], clock, goes_on=goes_on)
    return tuple(found)


def silence_every(ways: Sequence[Way], channels: Iterable[int], clock: WallClock) -> str:
    """All sound and all notes off at every port, whether or not others take it; in words.

    Raises WorldFailed when not one port took it.
    """
    took = play_parted(silence(channels), [Way(way.port) for way in ways], clock)
    silent = [one.way.port.name for one in took if not one.trouble]
    troubles = [one.trouble for one in took if one.trouble]
    if not silent:
        raise WorldFailed(
            "all sound off was NOT sent: "
            f"{'; '.join(troubles) or 'no port is open'}. Turn the sound down by hand"
        )
    also = f" ({'; '.join(troubles)})" if troubles else ""
    return f"all sound and all notes off, sent to {', '.join(silent)}{also}"
