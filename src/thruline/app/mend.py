"""Mends tried out on the document: what each would do, and the text with one applied."""

import contextlib
import difflib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from thruline.app.load import Opened, open_again
from thruline.app.prove import prove_rig
from thruline.base.edit import Edit
from thruline.base.errors import CannotUse
from thruline.document.bulk import entry_by_entry, reads_as
from thruline.document.change import apply_to
from thruline.mend.named import called, named
from thruline.mend.weigh import Again, Weighed, weigh, weigh_all
from thruline.proof.case import Case
from thruline.proof.engine import Proof
from thruline.proof.finding import Severity


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """A rig with its case and proof, at one moment."""

    opened: Opened
    case: Case
    proof: Proof


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """A mend that was applied, the state after it, and what changed in the document."""

    done: Weighed
    after: State
    diff: str


def state_of(opened: Opened, before: Case | None = None) -> State:
    """The rig proved."""
    case, proof = prove_rig(opened, before)
    return State(opened=opened, case=case, proof=proof)


def again_for(state: State) -> Again:
    """A function that proves the state's rig after edits."""

    def again(edits: Sequence[Edit]) -> Proof:
        return after_edits(state, edits).proof

    return again


def after_edits(state: State, edits: Sequence[Edit]) -> State:
    """The state after edits of the document. Raises CannotUse when they cannot be made."""
    return state_of(_opened_after(state.opened, edits), state.case)


def _opened_after(opened: Opened, edits: Sequence[Edit]) -> Opened:
    """The rig with edits made: entry by entry where that is possible, or else in the whole."""
    text = entry_by_entry(opened.document, edits)
    if text is not None:
        with contextlib.suppress(CannotUse):  # the other way says better what is wrong
            after = open_again(opened, text)
            if reads_as(after.document.data, opened.document.data, edits):
                return after
    return open_again(opened, apply_to(opened.document, edits))


def offers(state: State) -> Iterator[Weighed]:
    """Every mend of every finding, weighed one by one; in their order."""
    return weigh_all(state.proof, again_for(state))


def apply_mend(state: State, chosen: Weighed) -> Step:
    """Apply one mend. Raises CannotUse when it cannot be made."""
    if chosen.effect is None:
        raise CannotUse(f"{chosen.mend.says}: {chosen.trouble}")
    after = after_edits(state, chosen.mend.edits)
    return Step(done=chosen, after=after, diff=document_diff(state.opened, after.opened))


def chosen_steps(state: State, wanted: Sequence[str]) -> Iterator[Step]:
    """The mends of these names, one after the other; all are looked up before any is made.

    Raises CannotUse when a name is not that of one mend, when a mend cannot be made any more, and
    when one brings a fault after those before it that it does not bring by itself.
    """
    first, before = state, list[Step]()
    offered = [(finding, mend) for finding in state.proof.findings for mend in finding.mends]
    mends = [mend for _, mend in offered]
    for place in dict.fromkeys(called(word, mends) for word in wanted):
        finding, mend = offered[place]
        step = apply_mend(state, weigh(state.proof, finding, mend=mend, again=again_for(state)))
        _refuse_spoiled(first, before, step)
        yield step
        before.append(step)
        state = step.after


def _refuse_spoiled(first: State, before: Sequence[Step], step: Step) -> None:
    """Raise CannotUse when a step brings a fault that its mend does not bring by itself."""
    new = _new_faults(step.done)
    if not before or not new:
        return
    known = _new_faults(_weighed(first, step.done))
    caused = [says for fault, says in new.items() if fault not in known]
    if not caused:
        return
    spoilers = [one for one in before if _spoils(first, one.done, step.done)] or before
    one_mend, *others = named([step.done.mend, *(one.done.mend for one in spoilers)])
    raise CannotUse(
        f"{' and '.join(others)} and {one_mend} spoil each other; with both: {'; '.join(caused)}. "
        "Nothing was written: apply one, then list the mends again"
    )


def _new_faults(done: Weighed) -> Mapping[str, str]:
    """The faults that a mend brings, in words by their ids."""
    new = done.effect.new if done.effect is not None else ()
    return {one.id: one.says for one in new if one.severity is Severity.FAULT}


def _weighed(state: State, done: Weighed) -> Weighed:
    """The same mend weighed on another state."""
    return weigh(state.proof, done.finding, mend=done.mend, again=again_for(state))


def _spoils(first: State, earlier: Weighed, later: Weighed) -> bool:
    """Whether the later mend brings more faults after the earlier one than by itself."""
    after = after_edits(first, earlier.mend.edits)
    return bool(_new_faults(_weighed(after, later)).keys() - _new_faults(_weighed(first, later)))


def safe_steps(state: State) -> Iterator[Step]:
    """Safe mends one after the other, each weighed on the rig that the one before has left."""
    while True:
        step = _first_safe(state)
        if step is None:
            return
        yield step
        state = step.after


def _first_safe(state: State) -> Step | None:
    again = again_for(state)
    for finding in state.proof.findings:
        for mend in finding.mends:
            if mend.is_safe:
                chosen = weigh(state.proof, finding, mend=mend, again=again)
                if chosen.is_safe:
                    return apply_mend(state, chosen)
    return None


def document_diff(before: Opened, after: Opened) -> str:
    """What changed in the text, in the unified form that people know."""
    rows = difflib.unified_diff(
        before.document.text.splitlines(),
        after.document.text.splitlines(),
        before.document.file,
        after.document.file,
        n=1,
        lineterm="",
    )
    return "\n".join(rows)
