"""A unit that hears the controller over two ways."""

from collections.abc import Iterator

from thruline.base.edit import remove
from thruline.path.words import hops_in_words
from thruline.proof.case import Case
from thruline.proof.evidence import way
from thruline.proof.example_boards import DELAY, a_cable, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    controller = case.rig.controller
    if controller is None:
        return
    for unit in case.rig.units.values():
        routes = [
            route
            for route in case.hearing.routes_between(controller.id, unit.id)
            if route.certain and unit.chart.listens
        ]
        if len(routes) > 1:
            last = routes[-1].hops[-1].link.cables[-1]
            yield RULE.finding(
                f"{unit.name} hears everything {len(routes)} times, over {len(routes)} ways",
                unit.address,
                evidence=[
                    way(
                        *(
                            (f"way {n}", hops_in_words(case.rig.units, route.hops))
                            for n, route in enumerate(routes, 1)
                        )
                    )
                ],
                mends=[Mend(f"Take out the cable {last.name}", (remove(last.address),))],
            )


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
