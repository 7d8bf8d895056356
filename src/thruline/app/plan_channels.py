"""Which channel for each unit? Answered for a rig, as an edit of its document."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from thruline.app.frame import Json
from thruline.app.load import Opened
from thruline.app.planned import Change, Tried, tried_json, try_changes
from thruline.audit.digits import is_number
from thruline.base.edit import remove, set_to
from thruline.base.errors import CannotUse
from thruline.papers.paper import Section, table_of
from thruline.path.hearing import read_hearing
from thruline.path.network import read_network
from thruline.path.routing import chooses, read_routing
from thruline.plan.channel_reasons import Choice, choices, clash_words, cost_parts
from thruline.plan.channel_wishes import ALIKE, Outputs, channel_wishes, omni_off
from thruline.plan.channels import ChannelWish, Costs, Plan, plan_channels
from thruline.plan.clash import Clash, clash
from thruline.rig.unit import called, is_omni, marked
from thruline.rig.whole import Rig

AGAIN = (
    "Presets that use a unit on another channel have to be entered again: `thruline compare` of "
    "the document before and after lists them."
)

AS_PLUGGED = (
    "Every cable stays where it is plugged: a unit that hears one output only is sent over that "
    "one. Plugged into another output it would have sixteen other channels to choose from."
)
MOVE_ONE = "a plan of channels moves no cable: plug one of them into another output"
FOLLOWS = "what sends to it follows: it uses the channel that the unit listens to"
ITS_OWN = "it can be set to hear nothing but its own channel"


@dataclass(frozen=True, slots=True, kw_only=True)
class ChannelPlan:
    """A channel plan of a rig, or the clash why there is none.

    `parts` is what the cost is made of: in words, how often, how much each time.
    """

    opened: Opened
    plan: Plan | None
    choices: tuple[Choice, ...]
    outputs: Outputs
    parts: tuple[tuple[str, int, int], ...]
    clash: Clash | None
    clash_says: str
    tried: Tried

    @property
    def says(self) -> str:
        """The outcome in one sentence."""
        if self.plan is None:
            return f"there is no channel plan: {self.clash_says}"
        if not self.choices:
            return "no unit of this rig listens to a channel"
        counts = (
            (sum(one.changes for one in self.choices), "set to another channel"),
            (sum(one.changes_line for one in self.choices), "sent over another output"),
        )
        done = [
            f"{'one unit is' if count == 1 else f'{count} units are'} {what}"
            for count, what in counts
            if count
        ]
        says = " and ".join(done) or "every unit stays as it is set"
        if not self.plan.is_best:
            return f"{says}; this costs {self.plan.cost}, and no plan less than {self.plan.bound}"
        return f"{says}; proved: no plan costs less"


def read_pinned(words: str) -> tuple[str, int]:
    """`delay=3`, read. Raises CannotUse when it is no unit with a channel."""
    name, _, channel = words.partition("=")
    if not name or not is_number(channel):
        raise CannotUse(f'"{words}" is not a unit and its channel; one reads like delay=3')
    return name, int(channel)


def plan_rig_channels(opened: Opened, pinned: Mapping[str, int]) -> ChannelPlan:
    """The best plan. Raises CannotUse for a pinned unit that is not there or cannot be so set."""
    rig = opened.rig
    outputs = _outputs(rig)
    wishes = channel_wishes(rig, pinned, outputs)
    costs = Costs()
    plan = plan_channels(wishes, costs) if wishes else _EMPTY
    found = clash(wishes) if plan is None else None
    chosen = tuple(choices(wishes, plan, units=rig.units, pinned=pinned)) if plan else ()
    return ChannelPlan(
        opened=opened,
        plan=plan,
        choices=chosen,
        outputs=outputs,
        parts=cost_parts(wishes, plan, costs) if plan else (),
        clash=found,
        clash_says=_clash_says(found, wishes, opened.rig, can_move=bool(outputs.sockets)),
        tried=try_changes(opened, _changes(opened, chosen, outputs)),
    )


def _outputs(rig: Rig) -> Outputs:
    """The outputs of a controller that chooses between them, and which of them each unit hears."""
    controller = rig.controller
    if controller is None or not chooses(controller):
        return ALIKE
    network = read_network(rig)
    hearing = read_hearing(network)
    routing = read_routing(network, hearing, controller)
    heard = {
        name: frozenset(
            route.source.socket for route in hearing.routes_between(controller.id, name)
        )
        for name in (rig.units if routing.outputs else ())
    }
    return Outputs(sockets=routing.outputs, heard=heard, over=routing.over)


_EMPTY = Plan(slots={}, filtered=frozenset(), cost=0, bound=0, cases=1, solved=1)


def _clash_says(
    found: Clash | None, wishes: tuple[ChannelWish, ...], rig: Rig, *, can_move: bool
) -> str:
    if found is None:
        return ""
    least = "no smaller set clashes" if found.is_smallest else "none of them can be left out"
    says = f"{clash_words(found, wishes, rig.units)} ({least})"
    return f"{says}; {MOVE_ONE}" if can_move else says


def _changes(opened: Opened, chosen: tuple[Choice, ...], outputs: Outputs) -> Iterator[Change]:
    """Channels and outputs that change, senders that follow, and omni off where it can be."""
    shapes = {one.id: one for one in opened.document.shape.unit}
    for one in chosen:
        if one.changes:
            yield set_to(one.unit.address.child("channel"), one.channel), one.says
        socket = outputs.socket_of(one.line)
        if one.changes_line and socket is not None:
            yield set_to(one.unit.address.child("sent-over"), socket), one.says
        if shapes[one.unit.id].sent_on not in (None, one.channel):
            yield remove(one.unit.address.child("sent-on")), FOLLOWS
        off = omni_off(one.unit)
        if off is not None and is_omni(one.unit) is not False:
            yield set_to(one.unit.address.child("settings").child(off[0]), off[1]), ITS_OWN


def channel_sections(found: ChannelPlan) -> Iterator[Section]:
    """The plan unit by unit, and what it costs."""
    if found.plan is None:
        return
    marks = _marks(found)
    rows = [
        (
            called(found.opened.rig.units, one.unit.id),
            _number(one.was),
            str(one.channel),
            *((marks[one.line],) if marks else ()),
            _where(one),
            one.says,
        )
        for one in found.choices
    ]
    notes = (AGAIN,) if any(one.changes or one.changes_line for one in found.choices) else ()
    head = ("unit", "now", "plan", *(("over",) if marks else ()), "set at", "why")
    yield Section(
        title="A channel for each unit",
        table=table_of(head, rows),
        notes=(*notes, *((AS_PLUGGED,) if marks else ())),
    )
    if found.parts:
        cost = [(words, str(count), str(each), str(count * each))
                for words, count, each in found.parts]  # fmt: skip
        cost.append(("in all", "", "", str(found.plan.cost)))
        yield Section(
            title="What it costs",
            table=table_of(("", "times", "each", "makes"), cost),
            notes=(_proof(found.plan),),
        )


def _marks(found: ChannelPlan) -> Mapping[int, str]:
    """What is printed beside the outputs that there is a choice of, by their lines."""
    controller, outputs = found.opened.rig.controller, found.outputs
    if controller is None or not outputs.sockets:
        return {}
    marks = {outputs.line_of(one): marked(controller, one) for one in outputs.sockets}
    return {one.line: marks.get(one.line, "none") for one in found.choices} | marks


def _number(channel: int | None) -> str:
    return "-" if channel is None else str(channel)


def _where(one: Choice) -> str:
    rule = one.unit.chart.channel
    return rule.where if rule and one.changes else ""


def _proof(plan: Plan) -> str:
    if not plan.is_best:
        return f"Not proved: a plan may cost as little as {plan.bound}."
    if plan.cases <= 1:
        return "Proved: the assignment problem as a whole was solved to its bound."
    rest = plan.cases - plan.solved
    return (
        f"Proved: of {plan.cases} ways to place the units that hear every channel {plan.solved} "
        f"were solved, and the bound of the other {rest} is no lower."
    )


def channel_json(found: ChannelPlan) -> Json:
    """The plan for other programs."""
    return {
        "says": found.says,
        "proved": found.plan is not None and found.plan.is_best,
        "cost": found.plan.cost if found.plan else None,
        "units": [
            {
                "unit": one.unit.id,
                "name": one.unit.name,
                "was": one.was,
                "channel": one.channel,
                "changes": one.changes,
                "sent_over": found.outputs.socket_of(one.line),
                "moves_over": one.changes_line,
                "filter": one.wants_filter,
                "why": one.says,
            }
            for one in found.choices
        ],
        "clash": list(found.clash.units) if found.clash else [],
        **tried_json(found.tried),
    }
