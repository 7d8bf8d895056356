"""One preset to the messages that the controller must hold, in their best order.

The order is found on the controller's own line, where a unit's distance down the board is a fixed
time; whoever plays the result through the whole rig (`timing`) judges it. Units are ordered as if
each had a channel to itself: two on one channel are a mistake most of the time, and then the order
should not depend on it. What they might save of each other's status bytes is taken off the bound.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Protocol

from thruline.base.measures import BYTE_US
from thruline.compose.goals import Wanted
from thruline.compose.jobs import Block, Effort, Job, Means, Ordered, Pauses, Proof
from thruline.compose.order import best_order
from thruline.rig.chart import Meanwhile
from thruline.rig.controller import Abilities, OrderAbility
from thruline.timing.sending import Item, Sending
from thruline.timing.travel import Travel

_AT_ONCE = Travel()


class MakeJob(Protocol):
    """Anything that does what `job_for` does for one sender."""

    def __call__(self, wanted: Wanted, /, *, travel: Travel, later: int) -> Job:
        """The job of one unit."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Composed:
    """A preset as it is to be programmed. `wanted` and the jobs of `ordered` stand in one order."""

    wanted: tuple[Wanted, ...]
    ordered: Ordered
    sending: Sending


@dataclass(frozen=True, slots=True, kw_only=True)
class Sender:
    """How the controller puts messages on its line."""

    means: Means
    gap_us: int
    running_status: bool


def sender_of(abilities: Abilities) -> Sender:
    """The sender that a controller's chart describes; what it does not say is taken as no."""
    pauses = abilities.pauses
    means = Means(
        reorder=abilities.order is OrderAbility.FREE,
        programs_first=abilities.order is OrderAbility.PROGRAMS_FIRST,
        pauses=Pauses(
            step_us=pauses.step_ms * 1000, longest_us=pauses.longest_ms * 1000, most=pauses.count
        )
        if pauses
        else None,
    )
    return Sender(
        means=means, gap_us=abilities.gap_us, running_status=abilities.running_status is True
    )


def plan(
    wanted: Sequence[Wanted],
    sender: Sender,
    *,
    travels: Mapping[str, Travel],
    job: MakeJob | None = None,
) -> tuple[tuple[Wanted, ...], tuple[Job, ...]]:
    """What is wanted in the order in which the controller would list it, and its jobs.

    `travels` gives for each unit how far down the line it is. `job` stands in for `job_for`, to
    keep what it gave.
    """
    if not sender.means.reorder:
        wanted = sorted(wanted, key=lambda one: (one.unit.sent_on or 0, one.unit.order))
    make = job or partial(job_for, sender=sender)
    jobs = [make(one, travel=travels.get(one.unit.id, _AT_ONCE), later=0) for one in wanted]
    return tuple(wanted), tuple(jobs)


def with_waits(
    jobs: Sequence[Job],
    wanted: Sequence[Wanted],
    later: Mapping[str, int],
    *,
    travels: Mapping[str, Travel],
    job: MakeJob,
) -> tuple[Job, ...]:
    """The jobs of a plan, those of some units made again so that their controls wait longer.

    `later` gives the units and by how much, us: more than the empty rig would need, because
    messages queue up on the way.
    """
    return tuple(
        [
            job(one, travel=travels.get(one.unit.id, _AT_ONCE), later=wait)
            if (wait := later.get(one.unit.id))
            else known
            for one, known in zip(wanted, jobs, strict=True)
        ]
    )


def composed(
    wanted: tuple[Wanted, ...], ordered: Ordered, *, travels: Mapping[str, Travel]
) -> Composed:
    """The messages in the order that was found for their jobs."""
    return Composed(
        wanted=wanted,
        ordered=bounded(wanted, ordered, travels=travels),
        sending=_sending(wanted, ordered),
    )


def bounded(
    wanted: Sequence[Wanted], ordered: Ordered, *, travels: Mapping[str, Travel]
) -> Ordered:
    """The order with a bound that holds, too, when some of these units share a channel."""
    saved_us = _might_save(wanted, travels)
    if not saved_us:
        return ordered
    bound_us = max(0, ordered.bound_us - saved_us)
    return replace(ordered, bound_us=bound_us, proof=Proof.NOT_PROVED, sum_proved=False)


def _might_save(wanted: Sequence[Wanted], travels: Mapping[str, Travel]) -> int:
    """Wire time that running status could save between units of one channel, at most.

    One status byte a piece, on the sender's line and at every hop. An order that saves them all,
    each piece made that much longer again, is still an order, and ends no more than this later.
    """
    listed = [_address(one, travels) for one in wanted]
    if len(set(listed)) == len(listed):
        return 0
    channels = Counter(listed)
    shared = [one for one in wanted if channels[_address(one, travels)] > 1]
    hops = max((travels.get(one.unit.id, _AT_ONCE).whole_hops for one in shared), default=0)
    return BYTE_US * (1 + hops) * sum(len(one.groups) + bool(one.head) for one in shared)


def _address(wanted: Wanted, travels: Mapping[str, Travel]) -> tuple[int | None, int]:
    """The channel, and the output where the controller chooses one."""
    unit = wanted.unit
    return unit.sent_on, travels.get(unit.id, _AT_ONCE).sender


def compose(
    wanted: Sequence[Wanted],
    sender: Sender,
    *,
    travels: Mapping[str, Travel],
    effort: Effort = Effort.FULL,
) -> Composed:
    """The best order for what is wanted. See `plan` for `travels`."""
    listed, jobs = plan(wanted, sender, travels=travels)
    return composed(listed, best_order(jobs, sender.means, effort=effort), travels=travels)


def job_for(wanted: Wanted, /, *, sender: Sender, travel: Travel, later: int) -> Job:
    """A unit's share as wire times.

    A control change has three bytes where a program change has two, so each hop that waits for
    whole messages gives the loading unit one byte's time more before the control change starts.
    """
    settle = wanted.unit.chart.settle
    load = settle.load_us if settle and wanted.head else 0
    deaf = settle is not None and settle.controls in (Meanwhile.LOST, None)
    held_up = _held_up(wanted.head, sender, travel) if wanted.head else 0
    lag = max(0, load - travel.whole_hops * BYTE_US + held_up) if deaf else 0
    last = wanted.groups[-1][-1] if wanted.groups else wanted.head[-1]
    shortest = len(last.data) - (1 if sender.running_status and wanted.groups else 0)
    apply = settle.apply_us if settle and wanted.groups else 0
    tail = travel.of(shortest) + apply
    held = apply if settle and settle.controls is Meanwhile.HELD else 0
    arrived = travel.of(len(wanted.head[-1].data)) + held_up if wanted.head else 0
    loaded = load + held + arrived if wanted.head else 0
    return Job(
        head_us=_length(wanted.head, sender),
        lag_us=lag + later if wanted.head else 0,
        load_us=max(0, loaded - tail),
        blocks=tuple(_block(group, sender) for group in wanted.groups),
        tail_us=tail,
    )


def _held_up(head: Sequence[Item], sender: Sender, travel: Travel) -> int:
    """How much later the program change arrives, because it follows a longer bank select.

    At each hop that waits for whole messages it waits until that has left; the sender's own time
    between the two comes off once.
    """
    longer = max(len(item.data) for item in head) - len(head[-1].data)
    late_us = travel.whole_hops * BYTE_US * longer - sender.gap_us
    return max(0, late_us) if longer else 0


def _length(items: Sequence[Item], sender: Sender, *, before: int | None = None) -> int:
    """Wire time of messages in one go, with the sender's own time for each."""
    total, status = 0, before
    for item in items:
        kept = sender.running_status and item.data[0] == status
        total += sender.gap_us + BYTE_US * (len(item.data) - kept)
        status = item.data[0]
    return total


def _block(group: Sequence[Item], sender: Sender) -> Block:
    return Block(
        full_us=_length(group, sender),
        kept_us=_length(group, sender, before=group[0].data[0]),
    )


def _sending(wanted: Sequence[Wanted], ordered: Ordered) -> Sending:
    """The messages in their order, each first one of a piece with the pause before it."""
    items: list[Item] = []
    for slot in ordered.slots:
        one = wanted[slot.job]
        piece = one.head if slot.block is None else one.groups[slot.block]
        items.append(_paused(piece[0], slot.pause_us))
        items.extend(piece[1:])
    return Sending(tuple(items))


def _paused(item: Item, pause_us: int) -> Item:
    if pause_us == item.pause_us:
        return item
    return Item(
        data=item.data, purpose=item.purpose, unit=item.unit, part=item.part, pause_us=pause_us
    )
