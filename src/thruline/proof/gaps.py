"""Things that a document names and that are not there, as findings."""

from collections.abc import Collection, Iterator

from thruline.base.edit import remove, set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.finding import Finding, Mend
from thruline.proof.rule import Rule
from thruline.rig.whole import Lack, Unresolved


def gap_findings(case: Case, rule: Rule, lacks: Collection[Lack]) -> Iterator[Finding]:
    """One finding for each gap of these kinds, with the name that was probably meant."""
    for gap in case.rig.unresolved:
        if gap.lack in lacks:
            yield rule.finding(
                gap.says,
                gap.address,
                evidence=[
                    facts(("the document says", gap.found), ("nearest", gap.nearest or "none"))
                ],
                mends=_mends(gap),
            )


def _mends(gap: Unresolved) -> Iterator[Mend]:
    """Write the nearest name where a value names the thing; a key cannot be renamed by one edit."""
    last = gap.address.steps[-1]
    by_value = gap.lack in (Lack.SETTING_VALUE, Lack.PLUG) or last.key in (
        "controller", "unit", "control", "pedal",
    )  # fmt: skip
    if gap.nearest is not None and by_value and gap.lack is not Lack.PLUG:
        yield Mend(
            f'Write "{gap.nearest}" in place of "{gap.found}"', (set_to(gap.address, gap.nearest),)
        )
    if gap.lack in (Lack.SETTING, Lack.CONTROL) or (
        gap.lack is Lack.UNIT and last.key == gap.found
    ):
        yield Mend(f'Take "{gap.found}" out of the document', (remove(gap.address),))
