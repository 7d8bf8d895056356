"""An accepted finding that is no longer found."""

from collections.abc import Iterator

from thruline.base.edit import remove
from thruline.proof.acceptances import STALE, stale
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_preset, board
from thruline.proof.finding import Finding, Mend, Result, Severity
from thruline.proof.rule import Rule


def _look(case: Case, findings: tuple[Finding, ...]) -> Iterator[Result]:
    for one in stale(case.rig, findings):
        yield RULE.finding(
            f'"{one.finding}" is accepted, and there is no such finding (any more)',
            one.address,
            evidence=[facts(("accepted", one.finding), ("because", one.reason))],
            mends=[Mend("Take the acceptance out", (remove(one.address),), is_safe=True)],
        )


_ACCEPTED = """[[accept]]
finding = "document.name-too-long at preset[1].name"
reason = "the player knows it by its first words"
"""

RULE = Rule(
    id=STALE,
    title="An acceptance that no longer applies",
    severity=Severity.RISK,
    why=(
        "Somebody decided to live with a finding, and the finding is gone: mended, renamed or "
        "changed. Left standing, the acceptance would silently cover the same trouble if it came "
        "back."
    ),
    failing=board(a_preset(1, "Farewell"), _ACCEPTED),
    passing=board(a_preset(1, "The long farewell at the orchard gate"), _ACCEPTED),
    look_findings=_look,
)
