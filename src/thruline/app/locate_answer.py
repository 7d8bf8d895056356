"""How a search looks to other programs: one object for each state of it."""

from collections.abc import Iterable

from thruline.app.frame import Json
from thruline.app.locate import confirm, spent
from thruline.find.card import Entry
from thruline.find.checks import Check
from thruline.find.search import search_to_data
from thruline.find.standing import Standing
from thruline.find.story import (
    asked_again,
    because,
    conclusion,
    doubt,
    record,
    ruled_out,
    understood,
)
from thruline.find.suspect import Suspect

MOST_SUSPECTS = 10
"""Suspects that are told of; the rest is hardly likely."""


def standing_json(standing: Standing) -> Json:
    """A search as it stands: what to try or to mend, the suspects, and the search itself."""
    belief, field = standing.belief, standing.belief.field
    mend, confirming = standing.mend, confirm(standing)
    return {
        "rig": field.meant.rig.name,
        "state": standing.verdict.value,
        "says": conclusion(standing),
        "check": None if standing.check is None else check_json(standing.check),
        "mend": None if mend is None else mend_json(standing, mend),
        "confirm": None if confirming is None else check_json(confirming),
        "suspects": [
            {**suspect_json(one), "likely": round(share, 4)}
            for one, share in belief.ranked()[:MOST_SUSPECTS]
        ],
        "nothing_wrong": round(belief.nothing, 4),
        "something_else": round(belief.other, 4),
        "two_at_once": round(belief.both, 4),
        "ruled_out": list(ruled_out(field, standing.search)),
        "understood": list(understood(field, standing.search)),
        "asked_again": asked_again(standing),
        "doubtful": standing.doubtful,
        "doubt": doubt(standing),
        "seconds_left": round(standing.seconds_left),
        "seconds_spent": round(spent(standing)),
        "record": list(record(field, standing.search)),
        "search": search_to_data(standing.search),
    }


def check_json(check: Check) -> Json:
    """One check, with the answers it can have; of a glance the units to look at."""
    return {
        "id": check.id,
        "kind": check.trial.value,
        "asks": check.asks,
        "answers": [{"id": key, "says": says} for key, says in check.answers.items()],
        "units": list(check.units),
        "seconds": check.seconds,
        "sure": check.sure,
        "caution": check.caution,
    }


def suspect_json(suspect: Suspect) -> Json:
    """One suspect."""
    return {
        "id": suspect.id,
        "kind": suspect.kind.value,
        "on": suspect.on,
        "says": suspect.says,
        "mend": suspect.mend,
    }


def mend_json(standing: Standing, suspect: Suspect) -> Json:
    """The suspect whose mend is due, and what speaks for it."""
    return {**suspect_json(suspect), "because": list(because(standing, suspect))}


def card_json(entries: Iterable[Entry]) -> list[Json]:
    """The fault-finding card: each entry with where its answers lead."""
    return [
        {
            "number": one.number,
            "asks": one.asks,
            "caution": one.caution,
            "branches": [
                {"answer": branch.answer, "goes_to": branch.goes_to, "do": list(branch.do)}
                for branch in one.branches
            ],
        }
        for one in entries
    ]
