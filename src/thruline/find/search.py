"""A search as a plain value: what was asked, seen, left out and mended, in order.

It can be kept, sent, and played again: everything else follows from it and the rig.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Any

from thruline.base.errors import CannotUse
from thruline.find.trials import Place


class Did(StrEnum):
    """What was done at one step."""

    ANSWERED = "answered"
    NOT_SURE = "not-sure"
    CANNOT = "cannot"
    MENDED = "mended"


class Verdict(StrEnum):
    """What a search says."""

    CHECK = "check"
    MEND = "mend"
    WORKS = "works"
    NOTHING_FOUND = "nothing-found"
    OUTSIDE = "outside"
    UNSURE = "unsure"

    @property
    def is_end(self) -> bool:
        """Whether there is nothing left to do."""
        return self not in (Verdict.CHECK, Verdict.MEND)


@dataclass(frozen=True, slots=True)
class Step:
    """One step: of a check its id and the answer, of a mend its key.

    `said` are the words that an answer was made out of, where somebody told what was seen.
    """

    did: Did
    on: str
    answer: str = ""
    said: str = field(default="", compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """All steps so far, and where the board is. `said` is what was complained of, as it was put."""

    place: Place = Place.BENCH
    steps: tuple[Step, ...] = ()
    said: tuple[str, ...] = ()

    def after(self, step: Step) -> "Search":
        """The search with one step more."""
        return replace(self, steps=(*self.steps, step))

    def taken_back(self, count: int = 1) -> "Search":
        """The search without its last steps."""
        return replace(self, steps=self.steps[: max(0, len(self.steps) - count)])

    def without(self, place: int) -> "Search":
        """The search without the step at a place, counted from 0."""
        return replace(self, steps=self.steps[:place] + self.steps[place + 1 :])


def search_to_data(search: Search) -> dict[str, Any]:
    """A search as plain data."""
    steps = [_step_to_data(one) for one in search.steps]
    said = {"said": list(search.said)} if search.said else {}
    return {"place": search.place.value, "steps": steps, **said}


def _step_to_data(step: Step) -> dict[str, str]:
    data = {"did": step.did.value, "on": step.on, "answer": step.answer}
    return {**data, "said": step.said} if step.said else data


def search_from_data(data: Mapping[str, Any]) -> Search:
    """The search that plain data stands for; the inverse of `search_to_data`.

    Raises CannotUse when it stands for none.
    """
    steps: Sequence[Mapping[str, Any]] = data.get("steps", ())
    try:
        return Search(
            place=Place(data.get("place", Place.BENCH)),
            steps=tuple(
                Step(
                    Did(one["did"]),
                    str(one["on"]),
                    str(one.get("answer", "")),
                    str(one.get("said", "")),
                )
                for one in steps
            ),
            said=tuple(str(one) for one in data.get("said", ())),
        )
    except (KeyError, ValueError, TypeError, AttributeError) as trouble:
        raise CannotUse(
            'this is no search: it wants a "place" and "steps", each with "did" '
            f'({", ".join(Did)}), "on" and "answer"'
        ) from trouble
