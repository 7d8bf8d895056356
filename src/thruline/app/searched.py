"""A search put into the workshop's record, and what the record says about the next one."""

from thruline.find.belief import believe
from thruline.find.experience import Experience
from thruline.find.field import FIRST, Field
from thruline.find.search import Did, Search
from thruline.find.standing import Standing, seconds_spent, suspect_for
from thruline.find.story import record
from thruline.workshop.searches import KeptSearch, Searches, experience_from, goes_on_from

__all__ = ["experience_for", "keep_search", "kept_search"]


def experience_for(searches: Searches, rig: str) -> Experience:
    """What earlier searches say about this rig, by the name under which the workshop has it."""
    return experience_from(searches.listed(), rig)


def keep_search(searches: Searches, rig: str, standing: Standing) -> None:
    """Keep a search as it stands; one that goes on from a kept one takes its place.

    One in which nothing was answered is not worth keeping.
    """
    if standing.search.steps:
        before = goes_on_from(searches.listed(), rig, standing.search)
        searches.keep(kept_search(rig, standing), instead_of=before)


def kept_search(rig: str, standing: Standing) -> KeptSearch:
    """A search as the workshop keeps it."""
    field, search = standing.belief.field, standing.search
    return KeptSearch(
        rig=rig,
        verdict=standing.verdict,
        search=search,
        seconds=seconds_spent(field, search),
        told=tuple(record(field, search)),
        culprits=_culprits(field, search),
        expected=_expected(field),
    )


def _culprits(field: Field, search: Search) -> dict[str, float]:
    """What was mended: of each mend its likeliest suspect, and how sure it was by then."""
    found: dict[str, float] = {}
    for place, step in enumerate(search.steps):
        if step.did is Did.MENDED:
            before = believe(field, Search(place=search.place, steps=search.steps[:place]))
            sure = before.by_mend().get(step.on, 0.0)
            if sure:
                found[suspect_for(before, step.on).id] = round(sure, 4)
    return found


def _expected(field: Field) -> dict[str, float]:
    """The shares of the kinds of fault among the suspects, before anyone looked."""
    shares: dict[str, float] = {}
    total = float(field.prior[FIRST:].sum())
    for suspect, share in zip(field.suspects, field.prior[FIRST:].tolist(), strict=True):
        shares[suspect.kind.value] = shares.get(suspect.kind.value, 0.0) + share / total
    return {kind: round(share, 6) for kind, share in shares.items()}
