"""Why each unit sits where it does, and why a board has no channel plan, in sentences."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from thruline.plan.channels import CHANNELS, Costs, Plan, Seat, Sitter
from thruline.plan.clash import Clash
from thruline.rig.unit import Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One unit of a plan: where it was, where it shall be, and why."""

    unit: Unit
    was: int | None
    channel: int
    says: str
    wants_filter: bool

    @property
    def changes(self) -> bool:
        """Whether somebody has to set the unit."""
        return self.was != self.channel


def choices(
    sitters: Sequence[Sitter], plan: Plan, *, units: Mapping[str, Unit], pinned: Mapping[str, int]
) -> Iterator[Choice]:
    """Every unit with its reason, in the order of the document."""
    for one in sitters:
        reasons = [_why(one, sitters, plan, units=units, is_pinned=one.id in pinned)]
        if one.id in plan.filtered:
            reasons.append(
                "it hears every channel: put a filter before it that passes only its own"
            )
        yield Choice(
            unit=units[one.id],
            was=one.now.channel if one.now else None,
            channel=plan.seats[one.id].channel,
            says="; ".join(reasons),
            wants_filter=one.id in plan.filtered,
        )


def _why(
    one: Sitter,
    sitters: Sequence[Sitter],
    plan: Plan,
    *,
    units: Mapping[str, Unit],
    is_pinned: bool,
) -> str:
    seat = plan.seats[one.id]
    if one.now == seat:
        return "stays as you asked" if is_pinned else "stays as it is set"
    if is_pinned:
        return "as you asked"
    goes = _where_to(one, seat, sitters, plan=plan, units=units)
    if one.now is None:
        return f"had none; {goes}"
    if one.now not in set(one.seats()):
        return f"it cannot be set to {one.now.channel}; {goes}"
    mine = set(one.taken(one.now))
    holders = [
        other
        for other in sitters
        if other is not one and mine & set(other.taken(plan.seats[other.id]))
    ]
    if not holders:
        return f"channel {one.now.channel} is only what it left the factory with; {goes}"
    return f"{_held_by(holders[0], one, plan, units=units)}; {goes}"


def _held_by(holder: Sitter, one: Sitter, plan: Plan, *, units: Mapping[str, Unit]) -> str:
    seat = plan.seats[holder.id]
    name = units[holder.id].name
    was = one.now.channel if one.now else 0
    if len(list(holder.seats())) == 1:
        return f"{name} has to have channel {seat.channel}"
    if holder.now != seat:
        return f"channel {was} goes to {name}, which can be set to fewer"
    if one.is_settled or not holder.is_settled:
        return f"{name} stays on channel {seat.channel}"
    return f"{name} was set to channel {seat.channel} on purpose, this one left the factory with it"


def _where_to(
    one: Sitter, seat: Seat, sitters: Sequence[Sitter], *, plan: Plan, units: Mapping[str, Unit]
) -> str:
    """What is good about the channel that it gets."""
    if len(list(one.seats())) == 1:
        return f"{seat.channel} is the only one that it can have"
    if seat == one.ideal:
        before = [
            other
            for other in sitters
            if other is not one
            and plan.seats[other.id].line == seat.line
            and plan.seats[other.id].channel + other.width == seat.channel
        ]
        neighbour = f", behind {units[before[0].id].name}" if before else ""
        return f"{seat.channel} is its place in the order of the sound{neighbour}"
    return f"{seat.channel} is the nearest that is free to its place in the order of the sound"


def cost_parts(
    sitters: Sequence[Sitter], plan: Plan, costs: Costs
) -> tuple[tuple[str, int, int], ...]:
    """What a plan costs: in words, how often, and how much each time."""
    pairs = [(one, plan.seats[one.id]) for one in sitters]
    changed = [one for one, seat in pairs if one.now and one.now.channel != seat.channel]
    settled = sum(one.is_settled for one in changed)
    steps = sum(abs(one.ideal.channel - seat.channel) for one, seat in pairs if one.ideal)
    parts = (
        ("a filter to buy", len(plan.filtered), costs.filter),
        ("a unit set to another channel", settled, costs.channel),
        ("a unit set for the first time", len(changed) - settled, costs.factory),
        ("channel 1 in use", sum(seat.channel == 1 for _, seat in pairs), costs.channel_one),
        ("a channel away from the order of the sound", steps, costs.step),
    )
    return tuple(part for part in parts if part[1])


def clash_words(clash: Clash, sitters: Sequence[Sitter], units: Mapping[str, Unit]) -> str:
    """The units that clash, in one sentence."""
    those = [one for one in sitters if one.id in clash.units]
    names = _listed([units[one.id].name for one in those])
    channels = _spans([seat.channel for seat in clash.seats])
    if not clash.seats:
        return f"{names} takes {those[0].width} channels in a row and can begin on none"
    wants = sum(one.width for one in those)
    if wants > len(clash.seats):
        number = f"channels {channels}" if len(clash.seats) > 1 else f"channel {channels}"
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
