"""What would a patient person do with these findings? One mend after the other, until none helps.

First whatever is safe. Then, finding by finding, the first mend that works and makes nothing new.
A mend may also bring something to light: whoever makes a cut-off unit hear again sees what else was
wrong with it. Such a mend is made when no other is left, once for each finding.
"""

from collections.abc import Iterator

from thruline.app.mend import State, Step, after_edits, document_diff
from thruline.base.errors import CannotUse
from thruline.mend.weigh import Weighed
from thruline.proof.difference import difference
from thruline.proof.finding import Finding, Mend, Severity


def mending(state: State) -> Iterator[Step]:
    """The steps from a rig as it was found to one that no mend makes better."""
    uncovered: set[str] = set()
    while True:
        step = _better(state, safe=True) or _better(state, safe=False)
        if step is None:
            step = _uncovering(state, uncovered)
            if step is None:
                return
            uncovered.add(step.done.finding.id)
        yield step
        state = step.after


def uncovers(step: Step) -> tuple[Finding, ...]:
    """What a step brought to light."""
    return step.done.effect.new if step.done.effect is not None else ()


def _better(state: State, *, safe: bool) -> Step | None:
    """The first mend that removes its finding and makes nothing new."""
    for finding in state.proof.findings:
        for mend in finding.mends:
            if mend.is_safe is safe:
                step = _tried(state, finding, mend)
                if step is not None and step.done.effect is not None and step.done.effect.is_better:
                    return step
    return None


def _uncovering(state: State, done: set[str]) -> Step | None:
    """The first mend that works and leaves no more faults than there were."""
    for finding in state.proof.findings:
        for mend in finding.mends if finding.id not in done else ():
            step = _tried(state, finding, mend)
            if step is not None and _faults(step.after) <= _faults(state):
                return step
    return None


def _faults(state: State) -> int:
    return state.proof.count(Severity.FAULT)


def _tried(state: State, finding: Finding, mend: Mend) -> Step | None:
    """The state with a mend; None when it cannot be made or does not remove its finding."""
    try:
        after = after_edits(state, mend.edits)
    except CannotUse:
        return None
    done = Weighed(finding=finding, mend=mend, effect=difference(state.proof, after.proof))
    if not done.works:
        return None
    return Step(done=done, after=after, diff=document_diff(state.opened, after.opened))
