"""Plain orders of a preset's messages, to compare the best one with."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from thruline.compose.goals import wanted_of
from thruline.compose.jobs import Effort, Means
from thruline.compose.preset import compose
from thruline.proof.case import Case
from thruline.rig.preset import Preset
from thruline.timing.fate import Fate
from thruline.timing.run import run_one


@dataclass(frozen=True, slots=True, kw_only=True)
class Baseline:
    """A plain order: when everything is right in it, and how many control changes it loses."""

    says: str
    right_us: int
    lost: int


def baselines(case: Case, preset: Preset) -> tuple[Baseline, ...]:
    """The orders in which controllers without a choice send, with pauses where these can pause."""
    return tuple(_baseline(case, preset, says, means) for says, means in _orders(case))


def _orders(case: Case) -> Iterator[tuple[str, Means]]:
    means = replace(case.board.sender.means, reorder=False, programs_first=False)
    yield "unit by unit, in the order of their channels", means
    yield "all programs first, then all controls", replace(means, programs_first=True)


def _baseline(case: Case, preset: Preset, says: str, means: Means) -> Baseline:
    board = case.board
    made = compose(
        wanted_of(case.rig, preset),
        replace(board.sender, means=means),
        travels=board.roads.travels,
        effort=Effort.QUICK,
    )
    run = run_one(board.roads, board.listeners, made.sending, hand=board.hand)
    lost = sum(one.fates.count(Fate.LOST) for one in run.receptions.values())
    return Baseline(says=says, right_us=run.right_us, lost=lost)
