"""Which one thing is wrong, on a page: one search for a rig, kept with it, and what may be done.

Whoever looks at the rig looks at the same search. Every deed says how many steps its author saw, so
that two people who answer at once do not answer twice.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Any

from thruline.app.audit import audit, audit_json, plan_for
from thruline.app.audited import experience_by_audit
from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.locate import (
    Did,
    Field,
    Place,
    Search,
    Standing,
    begin,
    field_for,
    search_from_data,
    search_to_data,
    stand,
    step_for,
    with_symptoms,
)
from thruline.app.locate_answer import card_json, check_json, standing_json
from thruline.app.mend import State
from thruline.app.search_told import told_paper
from thruline.app.searched import keep_search
from thruline.base.errors import CannotUse
from thruline.find.card import card_for
from thruline.find.experience import NO_EXPERIENCE, NO_NUMBERS, Experience
from thruline.find.field import read_answer
from thruline.find.search import Step
from thruline.find.story import minutes, record
from thruline.papers.paper import Paper
from thruline.workshop.searches import experience_from, goes_on_from

MOST_SYMPTOMS = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Audited:
    """A capture by its name, and what its audit makes of suspects: cases counted for each."""

    capture: str = ""
    seen: Mapping[str, float] = field(default_factory=lambda: NO_NUMBERS)


NO_AUDIT = Audited()


@dataclass(frozen=True, slots=True, kw_only=True)
class Sought:
    """The search of a rig: whether it suspects first what the proof found, or an audit did.

    `experience` is what other searches taught.
    """

    search: Search
    by_proof: bool = False
    by_audit: Audited = NO_AUDIT
    experience: Experience = NO_EXPERIENCE


@dataclass(frozen=True, slots=True, kw_only=True)
class Begin:
    """How to begin: where the board is, what was seen, whether the proof is believed.

    `capture` is what was heard and is to be audited first, `at` the sockets its lines were listened
    to at, where their names do not say so.
    """

    place: Place = Place.BENCH
    symptoms: Sequence[str] = ()
    by_proof: bool = False
    capture: str = ""
    at: Sequence[str] = ()


def recalled(keeping: Keeping) -> Sought | None:
    """The search that is kept for a rig; None when there is none."""
    data = keeping.search.recall()
    if data is None:
        return None
    search, by_proof = search_from_data(data), data.get("from_proof") is True
    return Sought(
        search=search,
        by_proof=by_proof,
        by_audit=_audited_from(data.get("from_audit")),
        experience=_learnt(keeping, search),
    )


def begun(desk: Desk, keeping: Keeping, wish: Begin) -> Desk:
    """A new search in place of whatever was kept.

    Raises CannotUse when a symptom is unclear, or the capture cannot be audited.
    """
    search = begin(wish.place)
    sought = Sought(
        search=search,
        by_proof=wish.by_proof,
        by_audit=_audited(desk, keeping, wish),
        experience=_learnt(keeping, search),
    )
    symptoms = [one for one in wish.symptoms if one.strip()][:MOST_SYMPTOMS]
    if symptoms:
        search = with_symptoms(_field(desk.state, sought), sought.search, symptoms)
        sought = replace(sought, search=search)
    return _keep(desk, keeping, sought)


def answered(
    desk: Desk, keeping: Keeping, text: str, *, steps: int, check: str | None = None
) -> Desk:
    """The search after an answer to what is asked, or to a check that is tried again.

    Raises CannotUse when that is no answer, or when somebody else answered meanwhile.
    """
    sought = _seen(desk, keeping, steps)
    standing = _standing(desk.state, sought)
    asked = None if check is None else standing.belief.field.check(check)
    step = step_for(standing, text, check=asked)
    return _keep(desk, keeping, replace(sought, search=sought.search.after(step)))


def told(desk: Desk, keeping: Keeping, symptom: str, *, steps: int) -> Desk:
    """The search after something more that was seen, in a few words."""
    sought = _seen(desk, keeping, steps)
    search = with_symptoms(_field(desk.state, sought), sought.search, [symptom])
    return _keep(desk, keeping, replace(sought, search=search))


def without(desk: Desk, keeping: Keeping, place: int, *, steps: int) -> Desk:
    """The search without one of its steps, counted from 0."""
    sought = _seen(desk, keeping, steps)
    if not 0 <= place < len(sought.search.steps):
        raise CannotUse(f"this search has no answer number {place + 1}")
    return _keep(desk, keeping, replace(sought, search=sought.search.without(place)))


def moved_to(desk: Desk, keeping: Keeping, place: Place) -> Desk:
    """The search at another place: checks cost something else there."""
    sought = _wanted(desk, keeping)
    return _keep(desk, keeping, replace(sought, search=replace(sought.search, place=place)))


def put_away(desk: Desk, keeping: Keeping) -> Desk:
    """The rig without a search."""
    keeping.search.keep(None)
    return replace(desk)


def search_json(desk: Desk, keeping: Keeping) -> Json:
    """What the Find page shows: how to begin, or the search as it stands."""
    sought = recalled(keeping)
    if sought is None:
        units = [one for one in desk.state.opened.rig.units.values() if one.chart.listens]
        return {
            "begun": False,
            "units": [{"id": one.id, "name": one.name} for one in units],
            "captures": list(keeping.heard.names()),
        }
    search, dropped = _fitting(desk.state, sought)
    sought = replace(sought, search=search)
    standing = _standing(desk.state, sought)
    field = standing.belief.field
    said = standing_json(standing)
    names = {unit.id: unit.name for unit in field.meant.rig.units.values()}
    return {
        **said,
        "begun": True,
        "names": names,
        "from_proof": sought.by_proof,
        "from_audit": sought.by_audit.capture,
        "dropped": dropped,
        "left": minutes(said["seconds_left"]),
        "spent": minutes(said["seconds_spent"]),
        "check_takes": minutes(standing.check.seconds) if standing.check else "",
        "steps": [one.partition(". ")[2] for one in record(field, search)][: len(search.steps)],
        "step_checks": [one.on if one.did is not Did.MENDED else "" for one in search.steps],
        "is_end": standing.verdict.is_end,
        "mend_edits": _document_mends(desk, standing),
        "again": _again(standing),
    }


def search_paper(desk: Desk, keeping: Keeping) -> Paper:
    """The search as one page for a colleague. Raises CannotUse when none is going on."""
    return told_paper(_standing(desk.state, _wanted(desk, keeping)))


def card_view(desk: Desk) -> Json:
    """The fault-finding card of the rig: its first checks, for people without the tool."""
    field = _field(desk.state, Sought(search=begin()))
    return {"card": card_json(card_for(field))}


def _again(standing: Standing) -> Json | None:
    """The check that is proposed for a repeat, as it is asked."""
    if standing.doubtful is None:
        return None
    step = standing.search.steps[standing.doubtful]
    field = standing.belief.field
    return check_json(field.check(step.on))


def _document_mends(desk: Desk, standing: Standing) -> list[Json]:
    """Mends of what the proof found about the very thing that is to be mended."""
    suspect = standing.mend
    if suspect is None:
        return []
    found: list[Json] = []
    for finding in desk.state.proof.findings:
        entries = {address.steps[0].entry for address in finding.where}
        if suspect.on in entries or suspect.on.partition(".")[0] in entries:
            found.extend(
                {"finding": finding.id, "about": finding.says, "says": mend.says}
                for mend in finding.mends
            )
    return found


def _wanted(desk: Desk, keeping: Keeping) -> Sought:
    sought = recalled(keeping)
    if sought is None:
        raise CannotUse("no search is going on for this rig; begin one first")
    return replace(sought, search=_fitting(desk.state, sought)[0])


def _seen(desk: Desk, keeping: Keeping, steps: int) -> Sought:
    sought = _wanted(desk, keeping)
    if len(sought.search.steps) != steps:
        raise CannotUse("somebody else answered meanwhile; look at the question as it is now")
    return sought


def _keep(desk: Desk, keeping: Keeping, sought: Sought) -> Desk:
    """Keep a search, also in the workshop's record of all searches.

    A desk that is new as an object tells everybody who looks at the rig.
    """
    keep_search(keeping.searches, keeping.rig, _standing(desk.state, sought))
    data: dict[str, Any] = {**search_to_data(sought.search), "from_proof": sought.by_proof}
    if sought.by_audit.capture:
        by_audit = sought.by_audit
        data["from_audit"] = {"capture": by_audit.capture, "seen": dict(by_audit.seen)}
    keeping.search.keep(data)
    return replace(desk)


def _audited(desk: Desk, keeping: Keeping, wish: Begin) -> Audited:
    """What the audit of a capture makes likelier."""
    if not wish.capture:
        return NO_AUDIT
    case, capture = desk.state.case, keeping.heard.read(wish.capture)
    meant = plan_for(case, capture.lines, at=wish.at)
    told = audit_json(audit(capture, meant), meant, case.rig)
    return Audited(capture=wish.capture, seen=experience_by_audit(case, told).seen)


def _audited_from(data: object) -> Audited:
    """What a kept search says about its audit; nothing where it makes no sense."""
    if not isinstance(data, dict) or not isinstance(data.get("seen"), dict):
        return NO_AUDIT
    seen = {str(name): float(n) for name, n in data["seen"].items() if isinstance(n, int | float)}
    return Audited(capture=str(data.get("capture", "")), seen=MappingProxyType(seen))


def _learnt(keeping: Keeping, search: Search) -> Experience:
    """What the workshop's other searches say about the odds; this one does not count for itself."""
    listed = keeping.searches.listed()
    own = goes_on_from(listed, keeping.rig, search)
    return experience_from([one for one in listed if one.number != own], keeping.rig)


def _field(state: State, sought: Sought) -> Field:
    """Suspects and checks, worked out once for a case: that takes seconds."""
    place = sought.search.place
    proof = state.proof if sought.by_proof else None
    experience = sought.experience.with_(Experience(seen=sought.by_audit.seen))
    name = f"find {place.value} {sought.by_proof} {experience.mark}"
    return state.case.kept(
        name, lambda: field_for(state.case, place=place, proof=proof, experience=experience)
    )


def _standing(state: State, sought: Sought) -> Standing:
    """Where the search stands; the last one is remembered."""
    field = _field(state, sought)
    last: list[Standing] = state.case.kept("find standing", list)
    for one in last:
        if one.search == sought.search and one.belief.field is field:
            return one
    last[:] = [stand(field, sought.search)]
    return last[0]


def _fitting(state: State, sought: Sought) -> tuple[Search, int]:
    """The search without steps about things that the rig no longer has, and how many those were."""
    field = _field(state, sought)
    steps = tuple(one for one in sought.search.steps if _fits(field, one))
    return replace(sought.search, steps=steps), len(sought.search.steps) - len(steps)


def _fits(field: Field, step: Step) -> bool:
    if step.did is Did.MENDED:
        return step.on in field.mends
    if step.on not in field.place_of:
        return False
    if step.did is not Did.ANSWERED:
        return True
    try:
        read_answer(field.check(step.on), step.answer)
    except CannotUse:
        return False
    return True
