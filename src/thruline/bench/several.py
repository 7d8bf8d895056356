"""Several ports sent to together: one that goes does not stop the others, and may catch up."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from thruline.base.errors import WorldFailed
from thruline.bench.face import OutPort, PortGone, WallClock
from thruline.bench.send import Planned, in_time, play, silence


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


def play_parted(
    messages: Iterable[Planned],
    ways: Sequence[Way],
    clock: WallClock,
    *,
    goes_on: Callable[[], bool] = lambda: True,
) -> tuple[Took, ...]:
    """Send each message at its time to every way that takes it; what each way was given.

    A port that goes is given nothing more, and the others go on to the end: half of a preset on
    one line is trouble enough. When all are gone it ends.
    """
    listed = tuple(messages)
    counts, troubles = [0] * len(ways), [""] * len(ways)
    for _, message in in_time(listed, clock, goes_on=lambda: goes_on() and not all(troubles)):
        for place, way in enumerate(ways):
            if troubles[place] or not way.takes(message):
                continue
            try:
                way.port.send(message.data)
                counts[place] += 1
            except PortGone as trouble:
                troubles[place] = trouble.says
    return tuple(
        Took(
            way=way,
            wanted=tuple(one for one in listed if way.takes(one)),
            count=counts[place],
            trouble=troubles[place],
        )
        for place, way in enumerate(ways)
    )


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


def silence_every(ways: Iterable[Way], channels: Iterable[int], clock: WallClock) -> str:
    """All sound and all notes off at every port, whether or not others take it; in words.

    Raises WorldFailed when not one port took it.
    """
    messages, silent, troubles = silence(channels), list[str](), list[str]()
    for way in ways:
        try:
            play(messages, [way.port], clock)
            silent.append(way.port.name)
        except WorldFailed as trouble:
            troubles.append(trouble.says)
    if not silent:
        raise WorldFailed(
            "all sound off was NOT sent: "
            f"{'; '.join(troubles) or 'no port is open'}. Turn the sound down by hand"
        )
    also = f" ({'; '.join(troubles)})" if troubles else ""
    return f"all sound and all notes off, sent to {', '.join(silent)}{also}"
