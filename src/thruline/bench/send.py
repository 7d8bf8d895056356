"""Messages played in time: never sooner than planned, and never faster than the line behind."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from thruline.base.measures import BYTE_US
from thruline.bench.face import OutPort, WallClock
from thruline.midi.encode import encode
from thruline.midi.message import ControlChange
from thruline.timing.sending import Item, ready_times

ALL_SOUND_OFF, ALL_NOTES_OFF = 120, 123
"""Channel mode messages that end sound (MIDI 1.0)."""


@dataclass(frozen=True, slots=True)
class Planned:
    """One whole message, and when it leaves: us from the start, its line's speed kept.

    `unit` is the unit that it is meant for, and `over` the output of the controller that it leaves
    by; None where nobody said so, and where it leaves by all of them.
    """

    at_us: int
    data: bytes
    unit: str | None = None
    over: str | None = None


@dataclass(frozen=True, slots=True)
class Sent:
    """One message that left, and when."""

    at_us: int
    data: bytes


def planned(
    items: Iterable[Item], *, gap_us: int = 0, over: Mapping[str, str] = MappingProxyType({})
) -> tuple[Planned, ...]:
    """When each message leaves, at the speed of the line and with the pauses that were planned.

    `over` is the output by which what is meant for a unit leaves, where the controller chooses.

    Every message goes whole, its status byte included: what stands between this computer and the
    line may put other messages between, and running status would then be wrong.
    """
    listed = list(items)
    times = ready_times(listed, gap_us=gap_us, running_status=False)
    return tuple(
        Planned(at, item.data, item.unit, over.get(item.unit or ""))
        for at, item in zip(times, listed, strict=True)
    )


def play(
    messages: Iterable[Planned],
    ports: Sequence[OutPort],
    clock: WallClock,
    *,
    goes_on: Callable[[], bool] = lambda: True,
    slips: bool = True,
) -> tuple[Sent, ...]:
    """Send to every port, each message at its time (see `in_time`).

    Raises PortGone when a port goes.
    """
    sent = []
    for now_us, message in in_time(messages, clock, goes_on=goes_on, slips=slips):
        for port in ports:
            port.send(message.data)
        sent.append(Sent(now_us, message.data))
    return tuple(sent)


def in_time(
    messages: Iterable[Planned],
    clock: WallClock,
    *,
    goes_on: Callable[[], bool] = lambda: True,
    slips: bool = True,
) -> Iterator[tuple[int, Planned]]:
    """Each message when it is time for it, and what time that is (us).

    When one is late, or takes long to be handed over, all behind it are as late, so that no gap is
    shorter than it was planned; with `slips` off they keep to their own times, as a clock has to.
    """
    start_us = clock.now_us()
    for message in messages:
        due_us = start_us + message.at_us
        clock.wait_until(due_us)
        if not goes_on():
            return  # asked after the wait: it may have been stopped meanwhile
        now_us = clock.now_us()
        yield now_us, message
        start_us += max(0, clock.now_us() - due_us) if slips else 0


def silence(channels: Iterable[int]) -> tuple[Planned, ...]:
    """All sound off and all notes off, on these channels."""
    found: list[Planned] = []
    at_us = 0
    for channel in sorted(channels):
        for control in (ALL_SOUND_OFF, ALL_NOTES_OFF):
            data = encode(ControlChange(channel, control, 0))
            found.append(Planned(at_us, data))
            at_us += BYTE_US * len(data)
    return tuple(found)
