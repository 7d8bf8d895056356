"""Power on contacts that MIDI leaves unused, joined with something."""

from collections.abc import Iterator

from thruline.path.spare import SpareKind
from thruline.path.words import link_in_words
from thruline.proof.case import Case
from thruline.proof.evidence import way
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    for link in case.network.links:
        dangers = [one for one in link.hazards if one.kind is not SpareKind.SHARED]
        if dangers:
            worst = next((one for one in dangers if one.kind is SpareKind.SHORTED), dangers[0])
            yield RULE.finding(
                worst.says,
                *(cable.address for cable in link.cables),
                evidence=[
                    way(
                        ("link", link_in_words(case.rig.units, link)),
                        *(("contact", one.says) for one in dangers),
                        ("caution", "use a lead that carries contacts 2, 4 and 5 only"),
                    )
                ],
                severity=Severity.FAULT if worst.kind is SpareKind.SHORTED else Severity.RISK,
            )


def _lead(*rows: str) -> str:
    return a_cable("remote.midi-out", "delay.midi-in", *rows, ends="din5/din5")


_REMOTE = a_unit("remote", "holstein-remote")

RULE = Rule(
    id=rule_id(__name__),
    title="Power on spare contacts",
    severity=Severity.RISK,
    why=(
        "Some foot units take or give their supply over contacts that MIDI does not use. A lead "
        "with all contacts wired takes that power to a unit that does not expect it."
    ),
    failing=board(DELAY, TO_DELAY.replace("feet.midi-out-1", "feet.midi-out-2"), _REMOTE, _lead()),
    passing=board(DELAY, _REMOTE, _lead('wiring = { 4 = "4", 5 = "5", 2 = "2" }')),
    look_board=_look,
)
