"""A MIDI cable longer than the standard allows."""

from collections.abc import Iterator

from thruline.base.address import Address
from thruline.path.copies import too_long
from thruline.path.words import link_in_words
from thruline.proof.case import Case
from thruline.proof.evidence import facts, way
from thruline.proof.example_boards import DELAY, a_cable, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    told: set[frozenset[Address]] = set()  # a cable may be part of a link in either direction
    for link in case.network.links:
        for run in too_long(link):
            places = frozenset(cable.address for cable in run.cables)
            if places in told:
                continue
            told.add(places)
            unit = case.rig.units[link.stop.unit]
            yield RULE.finding(
                f"the cable to {unit.name} is {run.length_mm / 1000:g} m long; "
                f"{run.limit_mm / 1000:g} m "
                "is the most",
                *(cable.address for cable in run.cables),
                evidence=[
                    way(("link", link_in_words(case.rig.units, link))),
                    facts(("longest allowed", f"{run.limit_mm / 1000:g} m")),
                ],
            )


def _cable(length: int) -> str:
    return a_cable("feet.midi-out-1", "delay.midi-in", f"length = {length}")


RULE = Rule(
    id=rule_id(__name__),
    title="A MIDI cable that is too long",
    severity=Severity.RISK,
    why=(
        "The edges of the signal flatten along a cable. Beyond 15 m (2 m for a lead from DIN to "
        "jack) the far unit misreads a byte now and then, which is the hardest kind of fault to "
        "find."
    ),
    failing=board(DELAY, _cable(16000)),
    passing=board(DELAY, _cable(15000)),
    look_board=_look,
)
