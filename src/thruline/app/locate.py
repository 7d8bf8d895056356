"""Which one thing is wrong? A search held step by step, and what it says now."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from thruline.audit.digits import is_number
from thruline.base.errors import CannotUse
from thruline.find.card import NEEDS_TOOL
from thruline.find.checks import NO_SECONDS, Check
from thruline.find.experience import NO_EXPERIENCE, Experience
from thruline.find.field import Field, field_of, read_answer
from thruline.find.meant import meant_by
from thruline.find.search import Did, Search, Step, Verdict, search_from_data, search_to_data
from thruline.find.standing import Standing, confirming, seconds_spent, stand
from thruline.find.suspects import suspects_of
from thruline.find.symptoms import steps_for
from thruline.find.trials import Place, Trial
from thruline.proof.case import Case
from thruline.proof.engine import Proof
from thruline.proof.finding import Severity

BY_PROOF = 5.0
"""How many earlier cases a fault that the proof found counts as, for the suspects it is about."""
RISKED = 1.0
"""The same for a risk."""

__all__ = [
    "Did",
    "Field",
    "Place",
    "Search",
    "Standing",
    "Step",
    "Verdict",
    "begin",
    "card_field",
    "confirm",
    "counts_by_proof",
    "field_for",
    "search_from_data",
    "search_to_data",
    "spent",
    "stand",
    "step_for",
    "with_symptoms",
]


def field_for(
    case: Case,
    *,
    place: Place = Place.BENCH,
    proof: Proof | None = None,
    experience: Experience = NO_EXPERIENCE,
    seconds: Mapping[str, float] = NO_SECONDS,
) -> Field:
    """What a search on this rig is made with.

    With a `proof`, what it found makes suspects likelier. `experience` is that of earlier cases,
    `seconds` are other costs of checks by kind. Raises CannotUse for a rig without a controller.
    """
    if proof is not None:
        experience = experience.with_(Experience(seen=counts_by_proof(case, proof)))
    return field_of(case, place=place, experience=experience, seconds=seconds)


def card_field(case: Case, proof: Proof, before: Field | None = None) -> Field:
    """What a fault-finding card is made with: the checks that need no computer.

    `before` is the same of an earlier state of the rig.
    """
    experience = NO_EXPERIENCE.with_(Experience(seen=counts_by_proof(case, proof)))
    return field_of(case, experience=experience, without=NEEDS_TOOL, before=before)


def counts_by_proof(case: Case, proof: Proof) -> dict[str, float]:
    """The suspects that findings are about, counted as if they had been the culprit before."""
    weights: dict[str, float] = {}
    for finding in proof.findings:
        weight = {Severity.FAULT: BY_PROOF, Severity.RISK: RISKED}.get(finding.severity, 0.0)
        for address in finding.where:
            entry = address.steps[0].entry
            if entry is not None and weight:
                weights[entry] = max(weights.get(entry, 0.0), weight)
    found = {}
    for suspect in suspects_of(meant_by(case)) if weights else ():
        on = suspect.on if suspect.on in weights else suspect.on.partition(".")[0]
        if on in weights:
            found[suspect.id] = weights[on]
    total = sum(found.values())
    return {name: count / total * BY_PROOF for name, count in found.items()} if total else {}


def begin(place: Place = Place.BENCH) -> Search:
    """A search in which nothing was asked yet."""
    return Search(place=place)


def with_symptoms(field: Field, search: Search, symptoms: Iterable[str]) -> Search:
    """The search after symptoms in a few words. Raises CannotUse when one is unclear."""
    for words in symptoms:
        said = " ".join(words.split())
        for step in steps_for(field, words):
            search = search.after(replace(step, said=said))
        search = replace(search, said=(*search.said, said))
    return search


def step_for(standing: Standing, text: str, *, check: Check | None = None) -> Step:
    """The step that a person’s answer stands for.

    `not sure`, `cannot` and `mended` are answers too. Otherwise the id of an answer, its number
    from 1, or its first letters; of a glance the units that are not right, or `none`. Raises
    CannotUse, saying what could be answered.
    """
    words = " ".join(text.lower().replace("’", "'").split())
    if words in ("mended", "done") and standing.mend is not None:
        return Step(Did.MENDED, standing.mend.mend_key)
    asked = check or standing.check
    if asked is None and standing.mend is not None and standing.verdict is Verdict.MEND:
        raise CannotUse('answer "mended" when that is done, or "back" to take the last answer back')
    if asked is None:
        raise CannotUse("nothing is asked any more; the search has ended")
    if words in ("not sure", "not-sure", "n", "?"):
        return Step(Did.NOT_SURE, asked.id)
    if words in ("cannot", "can't", "can't do", "c"):
        return Step(Did.CANNOT, asked.id)
    return Step(Did.ANSWERED, asked.id, _answer(standing.belief.field, asked, words))


def _answer(field: Field, check: Check, words: str) -> str:
    if check.trial is Trial.GLANCE:
        if words in ("none", "all right", "ok", "0", ""):
            return ""
        return read_answer(check, _named(field, check, words))
    ids = list(check.answers)
    if is_number(words) and 1 <= int(words) <= len(ids):
        return ids[int(words) - 1]
    near = [
        one for one, says in check.answers.items() if words and _begins(words, one, says.lower())
    ]
    return near[0] if len(near) == 1 else read_answer(check, words)


def _begins(words: str, *names: str) -> bool:
    return any(name.startswith(words) for name in names)


def _named(field: Field, check: Check, words: str) -> str:
    """Units by their names or numbers turned into ids, with a comma between."""
    by_name = {unit.name.lower(): unit.id for unit in field.meant.rig.units.values()}
    listed = dict(enumerate(check.units, 1))
    parts = [part.strip() for part in words.replace(" and ", ",").split(",") if part.strip()]
    if len(parts) == 1 and all(is_number(one) for one in parts[0].split()):
        parts = parts[0].split()
    ids = [listed.get(int(part), part) if is_number(part) else part for part in parts]
    return ",".join(by_name.get(one, one) for one in ids)


def spent(standing: Standing) -> float:
    """Seconds that the checks have cost so far."""
    return seconds_spent(standing.belief.field, standing.search)


def confirm(standing: Standing) -> Check | None:
    """The check that confirms the mend that is due."""
    if standing.mend is None:
        return None
    return confirming(standing.belief.field, standing.mend)
