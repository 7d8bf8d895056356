"""Does it arrive, is it understood, in time, and the same every time?"""

from collections.abc import Callable

from thruline.app.load import Opened
from thruline.proof.case import Case
from thruline.proof.engine import Proof, prove
from thruline.proof.rulebook import rulebook


def prove_rig(
    opened: Opened,
    before: Case | None = None,
    *,
    step: Callable[[int, int], None] | None = None,
) -> tuple[Case, Proof]:
    """The proof of an opened rig, and the case it rests on.

    `before` is the case of an earlier state of the rig, of which all that still holds is taken
    over. `step` is told how many rules are done of how many.
    """
    case = Case(opened.rig, before)
    return case, prove(case, rulebook(), step=step)
