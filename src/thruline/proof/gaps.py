"""Things that a document names and that are not there, as findings."""

from collections.abc import Collection, Iterator, Sequence

from thruline.base.address import Address
from thruline.base.edit import remove, set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.finding import Finding, Mend
from thruline.proof.rule import Rule
from thruline.rig.whole import Lack, Rig, Unresolved


def gap_findings(case: Case, rule: Rule, lacks: Collection[Lack]) -> Iterator[Finding]:
    """One finding for each place with gaps of these kinds, with what was probably meant."""
    by_place: dict[Address, list[Unresolved]] = {}
    for gap in case.rig.unresolved:
        if gap.lack in lacks:
            by_place.setdefault(gap.address, []).append(gap)
    for place, gaps in by_place.items():
        yield rule.finding(
            "; ".join(gap.says for gap in gaps),
            place,
            evidence=[facts(*_rows(gaps))],
            mends=[mend for gap in gaps for mend in _mends(case.rig, gap)],
        )


def _rows(gaps: Sequence[Unresolved]) -> Iterator[tuple[str, str]]:
    for gap in gaps:
        yield "the document says", gap.found
        if gap.nearest is not None:
            yield "nearest", gap.nearest


def _mends(rig: Rig, gap: Unresolved) -> Iterator[Mend]:
    """Write the nearest name where a value names the thing; a key cannot be renamed by one edit."""
    if gap.instead is not None:
        says = f'Write "{gap.instead}"'
        yield Mend(says, (set_to(gap.address, gap.instead),))
    if any(step.key == "moves" for step in gap.address.steps):
        yield _without_move(rig, gap)
    elif gap.lack in (Lack.SETTING, Lack.CONTROL) or gap.address.steps[-1].key == gap.found:
        yield Mend(f'Take "{gap.found}" out of the document', (remove(gap.address),))


def _without_move(rig: Rig, gap: Unresolved) -> Mend:
    """Take the move out, or the whole sweep where no other move of it is understood."""
    move = gap.address.parent
    sweep = move.parent
    others = next((one.moves for one in rig.sweeps if one.address == sweep), ())
    name = sweep.steps[-1].entry
    if others:
        return Mend(f'Take the move of "{gap.found}" out of the sweep "{name}"', (remove(move),))
    return Mend(f'Take the sweep "{name}" out', (remove(sweep),))
