"""Things that a document names and that are not there, as findings."""

from collections.abc import Collection, Iterator, Sequence

from thruline.base.address import Address
from thruline.base.edit import EditKind, remove, set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.finding import Finding, Mend
from thruline.proof.rule import Rule
from thruline.rig.whole import Lack, Rig, Unresolved

MOST_PLACES = 4
"""Further places of a name that are listed; more are counted."""


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


def unit_findings(case: Case, rule: Rule) -> Iterator[Finding]:
    """One finding for each name that is no unit, wherever it stands; twins first.

    Where two units share an id, the name that is missing may be the one's own: then nothing that
    bears the name is to be taken out.
    """
    gaps = [gap for gap in case.rig.unresolved if gap.lack is Lack.UNIT]
    twins = [gap for gap in gaps if _is_of_unit(gap)]
    by_name: dict[str, list[Unresolved]] = {}
    for gap in gaps:
        if not _is_of_unit(gap):
            by_name.setdefault(gap.found, []).append(gap)
    for gap in twins:
        yield rule.finding(
            gap.says,
            gap.address,
            evidence=[facts(*_rows([gap]))],
            mends=_own_id(case.rig, gap, [*by_name]),
        )
    for name, those in by_name.items():
        count = len({gap.address for gap in those})
        everywhere = f' ("{name}" stands in {count} places)' if count > 1 else ""
        yield rule.finding(
            f"{those[0].says}{everywhere}",
            those[0].address,
            evidence=[facts(*_rows(those[:1]), *_places(those))],
            mends=_for_all(case.rig, those, may_go=not twins),
        )


def _is_of_unit(gap: Unresolved) -> bool:
    """Whether it is about a unit's own id, and not about a name that stands for none."""
    return gap.address.steps[0].key == "unit"


def _own_id(rig: Rig, gap: Unresolved, missing: Sequence[str]) -> Iterator[Mend]:
    """Give the second of two twins the one name that is missing, or else one of its own."""
    if "#" not in str(gap.address.steps[0].entry):
        return
    own = missing[0] if len(missing) == 1 else f"{gap.found}-2"
    if own not in rig.units:
        yield Mend(f'Call the second one "{own}"', (set_to(gap.address.child("id"), own),))


def _places(gaps: Sequence[Unresolved]) -> Iterator[tuple[str, str]]:
    places = list(dict.fromkeys(str(gap.address) for gap in gaps))[1:]
    for place in places[:MOST_PLACES]:
        yield "also at", place
    if len(places) > MOST_PLACES:
        yield "and at", f"{len(places) - MOST_PLACES} more"


def _for_all(rig: Rig, gaps: Sequence[Unresolved], *, may_go: bool) -> Iterator[Mend]:
    """What mends every place at once; of a single place, all that is known for it."""
    mends = [[*_mends(rig, gap)] for gap in gaps]
    if len(gaps) == 1:
        yield from (one for one in mends[0] if may_go or one.edits[0].kind is not EditKind.REMOVE)
        return
    for kind in (EditKind.SET, EditKind.REMOVE):
        picked = [one for those in mends for one in those if one.edits[0].kind is kind]
        if len(picked) == len(gaps) and (may_go or kind is EditKind.SET):
            edits = dict.fromkeys(edit for one in picked for edit in one.edits)
            yield Mend(f"{picked[0].says}, in all {len(gaps)} places", tuple(edits))


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
