"""Why each unit has its channel, and why a board has no channel plan, in sentences."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from thruline.plan.channels import CHANNELS, ChannelWish, Costs, Plan, Slot
from thruline.plan.clash import Clash
from thruline.rig.unit import Unit, called

SOUND, UNITS = "the order of the sound", "the order of the units"
"""What channels follow: the way of the sound, and where it is not described the document."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One unit of a plan: where it was, where it shall be, and why.

    `line` is that of the plan, `changes_line` tells that it is another than now.
    """

    unit: Unit
    was: int | None
    channel: int
    line: int
    changes_line: bool
    says: str
    wants_filter: bool

    @property
    def changes(self) -> bool:
        """Whether somebody has to set the unit."""
        return self.was != self.channel


def choices(
    wishes: Sequence[ChannelWish],
    plan: Plan,
    *,
    units: Mapping[str, Unit],
    pinned: Mapping[str, int],
) -> Iterator[Choice]:
    """Every unit with its reason, in the order of the document."""
    for one in wishes:
        reasons = [_why(one, wishes, plan, units=units, is_pinned=one.id in pinned)]
        if one.id in plan.filtered:
            reasons.append(
                "it hears every channel: put a filter before it that passes only its own"
            )
        yield Choice(
            unit=units[one.id],
            was=one.now.channel if one.now else None,
            channel=plan.slots[one.id].channel,
            line=plan.slots[one.id].line,
            changes_line=plan.slots[one.id].line != one.lines[0],
            says="; ".join(reasons),
            wants_filter=one.id in plan.filtered,
        )


def _why(
    one: ChannelWish,
    wishes: Sequence[ChannelWish],
    plan: Plan,
    *,
    units: Mapping[str, Unit],
    is_pinned: bool,
) -> str:
    slot = plan.slots[one.id]
    if one.now is not None and one.now.channel == slot.channel and one.now.line != slot.line:
        return f"keeps channel {slot.channel}: over this output nobody else hears it there"
    if one.now == slot:
        return "stays as you asked" if is_pinned else "stays as it is set"
    if is_pinned:
        return "as you asked"
    goes = _where_to(one, slot, wishes, plan=plan, units=units)
    if one.now is None:
        return f"had none; {goes}"
    if one.now not in set(one.slots()):
        return f"it cannot be set to {one.now.channel}; {goes}"
    mine = set(one.taken(one.now))
    holders = [
        other
        for other in wishes
        if other is not one and mine & set(other.taken(plan.slots[other.id]))
    ]
    if not holders:
        return f"channel {one.now.channel} is only what it left the factory with; {goes}"
    return f"{_held_by(holders[0], one, plan, units=units)}; {goes}"


def _held_by(
    holder: ChannelWish, one: ChannelWish, plan: Plan, *, units: Mapping[str, Unit]
) -> str:
    slot = plan.slots[holder.id]
    name = called(units, holder.id)
    was = one.now.channel if one.now else 0
    if len(list(holder.slots())) == 1:
        return f"{name} has to have channel {slot.channel}"
    if holder.now != slot:
        return f"channel {was} goes to {name}, which can be set to fewer"
    if one.is_settled or not holder.is_settled:
        return f"{name} stays on channel {slot.channel}"
    return f"{name} was set to channel {slot.channel} on purpose, this one left the factory with it"


def _where_to(
    one: ChannelWish,
    slot: Slot,
    wishes: Sequence[ChannelWish],
    *,
    plan: Plan,
    units: Mapping[str, Unit],
) -> str:
    """What is good about the channel that it gets."""
    if len(list(one.slots())) == 1:
        return f"{slot.channel} is the only one that it can have"
    order = SOUND if one.in_sound else UNITS
    if slot == one.ideal:
        before = [
            other
            for other in wishes
            if other is not one
            and plan.slots[other.id].line == slot.line
            and plan.slots[other.id].channel + other.width == slot.channel
        ]
        neighbour = f", behind {called(units, before[0].id)}" if before else ""
        return f"{slot.channel} is its place in {order}{neighbour}"
    return f"{slot.channel} is the nearest that is free to its place in {order}"


def cost_parts(
    wishes: Sequence[ChannelWish], plan: Plan, costs: Costs
) -> tuple[tuple[str, int, int], ...]:
    """What a plan costs: in words, how often, and how much each time."""
    pairs = [(one, plan.slots[one.id]) for one in wishes]
    changed = [one for one, slot in pairs if one.now and one.now.channel != slot.channel]
    settled = sum(one.is_settled for one in changed)
    moved = sum(one.now is not None and one.now.line != slot.line for one, slot in pairs)
    apart = sum(one.ideal is not None and one.ideal.line != slot.line for one, slot in pairs)
    order = SOUND if any(one.in_sound for one in wishes) else UNITS
    steps = sum(abs(one.ideal.channel - slot.channel) for one, slot in pairs if one.ideal)
    parts = (
        ("a filter to buy", len(plan.filtered), costs.filter),
        ("a unit set to another channel", settled, costs.channel),
        ("a unit set for the first time", len(changed) - settled, costs.factory),
        ("a unit sent over another output", moved, costs.line),
        ("an output that does not follow the sound", apart, costs.order_line),
        ("channel 1 in use", sum(slot.channel == 1 for _, slot in pairs), costs.channel_one),
        (f"a channel away from {order}", steps, costs.step),
    )
    return tuple(part for part in parts if part[1])


def clash_words(clash: Clash, wishes: Sequence[ChannelWish], units: Mapping[str, Unit]) -> str:
    """The units that clash, in one sentence."""
    those = [one for one in wishes if one.id in clash.units]
    names = _listed([called(units, one.id) for one in those])
    channels = _spans([slot.channel for slot in clash.slots])
    if not clash.slots:
        return f"{names} takes {those[0].width} channels in a row and can begin on none"
    if any(one.hears for one in those):
        number = f"channels {channels}" if len({s.channel for s in clash.slots}) > 1 else channels
        return f"{names} hear what is sent to the others, and all they can be set to is {number}"
    wants = sum(one.width for one in those)
    if wants > len(clash.slots):
        number = f"channels {channels}" if len(clash.slots) > 1 else f"channel {channels}"
        return f"{names} need {wants} channels, and all they can be set to is {number}"
    return f"{names} cannot stand side by side on channels {channels}"


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _spans(channels: Sequence[int]) -> str:
    """1 to 8, 10: runs of channels as people say them."""
    wanted = set(channels)
    begins = [one for one in sorted(wanted) if one - 1 not in wanted]
    ends = [one for one in sorted(wanted) if one + 1 not in wanted and one <= CHANNELS]
    return ", ".join(str(a) if a == b else f"{a} to {b}" for a, b in zip(begins, ends, strict=True))
