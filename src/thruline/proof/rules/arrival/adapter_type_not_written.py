"""A lead between DIN and jack of which the rig does not say which of the two types it is."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.bad_links import contacts
from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, DELAY_TO_REVERB, REVERB, TO_DELAY, a_cable, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.cable import is_adapted


def _look(case: Case) -> Iterator[Result]:
    for link in case.network.links:
        for cable in link.cables:
            if cable.wiring != "straight" or not is_adapted(cable.plugs) or not link.carries:
                continue
            where = cable.address.child("wiring")
            yield RULE.finding(
                f"the lead {cable.name} between DIN and jack is taken to be of type A: the rig "
                "does not say",
                where,
                evidence=[contacts(case, link)],
                mends=[
                    Mend(
                        "Write that it is of type A, after a look at it",
                        (set_to(where, "type-a"),),
                    )
                ],
            )


RULE = Rule(
    id=rule_id(__name__),
    title="An adapter lead of a type that is not written",
    severity=Severity.ADVICE,
    why=(
        "Two kinds of lead between DIN and jack are in use. They look alike, and with the wrong "
        "one nothing gets through. Measure it: on type A the tip leads to contact 5 of the DIN "
        "plug and the ring to contact 4; on type B it is the other way round."
    ),
    failing=board(
        DELAY, REVERB, TO_DELAY, a_cable("delay.midi-thru", "reverb.midi-in", ends="din5/trs-3.5")
    ),
    passing=board(DELAY, REVERB, TO_DELAY, DELAY_TO_REVERB),
    look_board=_look,
)
