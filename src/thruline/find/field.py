"""All that a search for the fault of one rig is made with, worked out once."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from thruline.base.errors import CannotUse
from thruline.find.checks import NO_SECONDS, Check, checks_for
from thruline.find.experience import NO_EXPERIENCE, Experience
from thruline.find.meant import Meant, meant_by
from thruline.find.predict import Predicted, predict
from thruline.find.supposed import supposed
from thruline.find.suspect import Suspect
from thruline.find.suspects import suspects_of
from thruline.find.trials import Place, Trial
from thruline.find.worlds import Worlds
from thruline.proof.case import Case

NOTHING, OTHER = 0, 1
"""Rows before those of the suspects: nothing is wrong; something that is not among them is."""
FIRST = 2
SHARES = (0.05, 0.005)
"""Odds that nothing is wrong, or something else, before anyone has looked."""
PAIRS = 0.06
"""Odds that two things are wrong at once."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Field:
    """Suspects and checks of a rig, with what each check shows for each.

    `outcomes` has a row for nothing wrong, one for something else (never looked at), then one for
    each suspect; `prior` is in the same order and sums to 1, pairs aside. `mends` names for each
    row what would be done, `comes_and_goes` marks rows that show only now and then.
    """

    meant: Meant
    suspects: tuple[Suspect, ...]
    checks: tuple[Check, ...]
    worlds: Worlds
    answers: tuple[tuple[str, ...], ...]
    outcomes: NDArray[np.int64]
    prior: NDArray[np.float64]
    mends: tuple[str, ...]
    comes_and_goes: NDArray[np.bool_]
    seconds: NDArray[np.float64]
    place_of: Mapping[str, int]

    def check(self, check_id: str) -> Check:
        """The check of this id. Raises CannotUse when this rig has none."""
        if check_id not in self.place_of:
            raise CannotUse(f'there is no check "{check_id}" on this rig')
        return self.checks[self.place_of[check_id]]

    @property
    def looked_at(self) -> tuple[str, ...]:
        """The units that a press should change."""
        return self.meant.looked_at


def field_of(
    case: Case,
    *,
    place: Place = Place.BENCH,
    experience: Experience = NO_EXPERIENCE,
    seconds: Mapping[str, float] = NO_SECONDS,
    without: Collection[Trial] = (),
    before: Field | None = None,
) -> Field:
    """Everything for one rig, leaving out checks of the kinds `without`.

    What an earlier field of the same board tells is taken over from `before`. Raises CannotUse when
    nothing on the rig could be pressed.
    """
    if case.rig.controller is None:
        raise CannotUse(
            "this rig has no controller, so nothing can be pressed and looked at; "
            'name one of its units in [rig], such as controller = "feet"'
        )
    meant = meant_by(Case(supposed(case.rig), case))
    suspects = suspects_of(meant, experience)
    every = checks_for(meant, suspects, place=place, seconds=seconds)
    checks = tuple(one for one in every if one.trial not in without)
    if before is not None and _shows_the_same(before, meant, suspects, checks):
        worlds, predicted = replace(before.worlds, meant=meant), _predicted_for(before)
    else:
        worlds = Worlds(meant)
        predicted = predict(worlds, suspects, checks)
    return field_with(worlds, suspects, checks, predicted=predicted)


def _shows_the_same(
    before: Field, meant: Meant, suspects: Sequence[Suspect], checks: Sequence[Check]
) -> bool:
    """Whether every check shows for every suspect what it showed before; names and odds may differ.

    A table follows from the board, from what is sent and wanted, and from what is put in and tried.
    """
    was = before.meant
    return (
        was.case.board is meant.case.board
        and was.sendings == meant.sendings
        and was.goals == meant.goals
        and [_put_in(one) for one in before.suspects] == [_put_in(one) for one in suspects]
        and [_tried(one) for one in before.checks] == [_tried(one) for one in checks]
    )


def _put_in(suspect: Suspect) -> tuple[object, ...]:
    return suspect.id, suspect.changes, suspect.shows


def _tried(check: Check) -> tuple[object, ...]:
    return check.id, check.unit, check.number, check.scene, check.look, check.answers


def _predicted_for(field: Field) -> Predicted:
    """The table of a field, as it was put in."""
    outcomes = field.outcomes.astype(np.int16)
    return Predicted(outcomes=outcomes[FIRST:], good=outcomes[NOTHING], answers=field.answers)


def field_with(
    worlds: Worlds,
    suspects: Sequence[Suspect],
    checks: Sequence[Check],
    *,
    predicted: Predicted,
) -> Field:
    """A field of given suspects and checks."""
    odds = np.array([one.odds for one in suspects], np.float64)
    singles = odds / max(float(odds.sum()), 1e-12) * (1 - sum(SHARES))
    sometimes = [False, False, *(one.sometimes for one in suspects)]
    outcomes = np.vstack([predicted.good, predicted.good, predicted.outcomes])
    return Field(
        meant=worlds.meant,
        suspects=tuple(suspects),
        checks=tuple(checks),
        worlds=worlds,
        answers=predicted.answers,
        outcomes=outcomes.astype(np.int64),
        prior=np.concatenate([SHARES, singles]),
        mends=("nothing", "something else", *(one.mend_key for one in suspects)),
        comes_and_goes=np.array(sometimes, np.bool_),
        seconds=np.array([one.seconds for one in checks], np.float64),
        place_of={one.id: place for place, one in enumerate(checks)},
    )


def units_in(answer: str) -> frozenset[str]:
    """The units that an answer to a glance names."""
    return frozenset(part.strip() for part in answer.split(",") if part.strip())


def read_answer(check: Check, text: str) -> str:
    """The answer that a text stands for. Raises CannotUse, saying what would be one."""
    said = text.strip()
    if check.trial is not Trial.GLANCE:
        if said in check.answers:
            return said
        known = ", ".join(check.answers.values())
        raise CannotUse(f'"{said}" is no answer to “{check.asks}”; it can be: {known}')
    named = units_in(said)
    unknown = sorted(named - set(check.units))
    if unknown:
        raise CannotUse(
            f'"{unknown[0]}" is none of the units that are looked at here; '
            f"they are: {', '.join(check.units)}"
        )
    return ",".join(unit for unit in check.units if unit in named)
