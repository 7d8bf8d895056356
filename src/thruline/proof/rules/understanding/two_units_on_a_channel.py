"""Two units that hear the same messages on the same channel."""

from collections.abc import Iterator
from itertools import combinations

from thruline.path.hearing import Heard
from thruline.path.parts import parts_of
from thruline.proof.case import Case
from thruline.proof.channel_mends import free_channel
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, DELAY_TO_REVERB, TO_DELAY, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.unit import Unit

_WIRED = (TO_DELAY, DELAY_TO_REVERB)


def _look(case: Case) -> Iterator[Result]:
    heard = [unit for unit in case.rig.units.values() if unit.channels and _is_heard(case, unit)]
    parts = parts_of(case.rig)
    for first, second in combinations(heard, 2):
        shared = sorted(set(first.channels) & set(second.channels))
        if shared and parts[first.id] == parts[second.id] and _meet(case, first, second):
            yield RULE.finding(
                f"{first.name} and {second.name} both listen to channel {shared[0]}: "
                "what is meant for one also changes the other",
                second.address.child("channel"),
                first.address.child("channel"),
                evidence=[
                    facts(
                        (first.name, f"channel {_span(first)}"),
                        (second.name, f"channel {_span(second)}"),
                    )
                ],
                mends=free_channel(case, second),
            )


def _meet(case: Case, one: Unit, other: Unit) -> bool:
    """Whether one hears what is meant for the other, where the controller chooses an output."""
    controller, routing = case.rig.controller, case.board.routing
    if controller is None or controller in (one, other) or not routing.chooses:
        return True
    return any(
        case.hearing.hears(controller.id, ear.id, over=routing.over[meant.id]) is not Heard.NO
        for meant, ear in ((one, other), (other, one))
    )


def _is_heard(case: Case, unit: Unit) -> bool:
    return bool(case.hearing.routes_to(unit.id))


def _span(unit: Unit) -> str:
    first, last = unit.channels[0], unit.channels[-1]
    return str(first) if first == last else f"{first} to {last}"


RULE = Rule(
    id=rule_id(__name__),
    title="Two units on a channel",
    severity=Severity.FAULT,
    why=(
        "A channel is an address. Two units that share one both act on every program change and "
        "every control change sent to either, and neither can be told anything alone."
    ),
    failing=board(DELAY, a_unit("reverb", "pippin-reverb", "channel = 3"), *_WIRED),
    passing=board(DELAY, a_unit("reverb", "pippin-reverb", "channel = 4"), *_WIRED),
    look_board=_look,
)
