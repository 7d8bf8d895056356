"""Too many electrical copies in a row."""

from collections.abc import Iterator

from thruline.path.copies import BUDGET_NS, CRYSTAL_BUDGET_NS
from thruline.path.hearing import Route
from thruline.path.words import hops_in_words
from thruline.proof.case import Case
from thruline.proof.evidence import facts, way
from thruline.proof.example_boards import a_cable, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id

WARN_AT = 4
"""Copies in a row from which one should look twice: MIDI 1.0 says more than three need care."""


def _look(case: Case) -> Iterator[Result]:
    seen: set[str] = set()
    for route in sorted(case.hearing.routes, key=lambda route: -route.copies.count):
        if route.target.unit in seen or route.copies.count == 0:
            continue
        seen.add(route.target.unit)
        skew = route.copies.skew_ns
        if skew is None and route.copies.count >= WARN_AT - 1:
            yield _untold(case, route)
        elif skew is not None and (skew > BUDGET_NS or route.copies.count >= WARN_AT):
            yield _found(case, route, skew)


def _found(case: Case, route: Route, skew: int) -> Result:
    unit = case.rig.units[route.target.unit]
    over = skew > CRYSTAL_BUDGET_NS
    return RULE.finding(
        f"what {unit.name} hears went through {route.copies.count} electrical copies in a row, "
        "which "
        f"wear {skew / 1000:g} us off its bits",
        unit.address,
        evidence=[
            way(("way", hops_in_words(case.rig.units, route.hops))),
            facts(
                ("bits are worn by", f"{skew / 1000:g} us"),
                ("bearable with any clocks", f"{BUDGET_NS / 1000:g} us"),
                ("bearable with good clocks", f"{CRYSTAL_BUDGET_NS / 1000:g} us"),
                ("what helps", "a split box near the head, or a soft thru in between"),
            ),
        ],
        severity=Severity.FAULT if over else Severity.RISK,
    )


def _untold(case: Case, route: Route) -> Result:
    unit = case.rig.units[route.target.unit]
    lacking = sorted(
        {
            case.rig.units[hop.link.start.unit].chart.id
            for hop in route.hops
            if case.network.outputs[hop.link.start].output.skew_ns is None
        }
    )
    return RULE.untold(
        f"whether {unit.name} can still read what it gets after {route.copies.count} electrical "
        "copies cannot be told",
        unit.address,
        lacks=f"skew of its THRU in chart {', '.join(lacking)}",
    )


def _line(count: int) -> tuple[str, ...]:
    units = [a_unit(f"delay-{n}", "bramley-delay", f"channel = {n}") for n in range(1, count + 2)]
    sockets = ["feet.midi-out-1", *(f"delay-{n}.midi-thru" for n in range(1, count + 1))]
    cables = [a_cable(socket, f"delay-{n}.midi-in") for n, socket in enumerate(sockets, 1)]
    return (*units, *cables)


RULE = Rule(
    id=rule_id(__name__),
    title="Too many electrical copies in a row",
    severity=Severity.RISK,
    why=(
        "Each THRU socket copies the signal through an opto-coupler that is a little slower in "
        "one direction than in the other. After several in a row some bits are too short to be "
        "read, and the units at the end act on wrong values, whatever is sent and however slowly."
    ),
    failing=board(*_line(4)),
    passing=board(*_line(3)),
    look_board=_look,
)
