"""A unit that hears the controller over two ways."""

from collections.abc import Iterator, Sequence

from thruline.base.edit import remove
from thruline.path.hearing import Route, gets_through
from thruline.path.words import hops_in_words
from thruline.proof.case import Case
from thruline.proof.evidence import way
from thruline.proof.example_boards import DELAY, a_cable, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.unit import Unit

MOST_SHOWN = 4


def _look(case: Case) -> Iterator[Result]:
    controller = case.rig.controller
    if controller is None:
        return
    for unit in case.rig.units.values():
        routes = [
            route
            for route in case.hearing.routes_between(controller.id, unit.id)
            if case.board.routing.takes(unit.id, route)
        ]
        ways = max((_ways(routes, status) for status in _statuses(unit)), key=len, default=[])
        if len(ways) > 1:
            last = ways[-1].hops[-1].link.cables[-1]
            yield RULE.finding(
                f"{unit.name} hears the same messages {len(ways)} times, over {len(ways)} ways",
                unit.address,
                evidence=[
                    way(
                        *(
                            (f"way {n}", hops_in_words(case.rig.units, route.hops))
                            for n, route in enumerate(ways[:MOST_SHOWN], 1)
                        )
                    )
                ],
                mends=[Mend(f"Take out the cable {last.name}", (remove(last.address),))],
            )


def _statuses(unit: Unit) -> list[int]:
    """Control and program changes on the channels that a unit takes."""
    channels = unit.channels if unit.chart.listens else ()
    return [kind | (channel - 1) for kind in (0xB0, 0xC0) for channel in channels if channel <= 16]


def _ways(routes: Sequence[Route], status: int) -> list[Route]:
    """The routes by which a message with this status byte surely arrives."""
    return [route for route in routes if gets_through(route, status)]


_TWO_WAYS = (
    DELAY,
    a_unit("merge", "kidd-merge"),
    a_cable("feet.midi-out-1", "merge.in-1"),
    a_cable("merge.output", "delay.midi-in"),
)

RULE = Rule(
    id=rule_id(__name__),
    title="A unit that hears everything twice",
    severity=Severity.FAULT,
    why=(
        "The same message arrives over two ways. Programs load twice, and whatever flips at each "
        "message flips back at once, so it seems dead."
    ),
    failing=board(*_TWO_WAYS, a_cable("feet.midi-out-2", "merge.in-2")),
    passing=board(*_TWO_WAYS),
    look_board=_look,
)
