"""What every plan shares: its edits of the document, tried, and what they do to the proof."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from thruline.app.answer import Json, difference_json, edit_json
from thruline.app.load import Opened
from thruline.app.mend import State, after_edits, document_diff, state_of
from thruline.base.edit import Edit
from thruline.proof.difference import Difference, difference
from thruline.proof.finding import Severity

Change: TypeAlias = tuple[Edit, str]
"""An edit of a plan, and why it is made."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """A document with the edits of a plan made, not written.

    `diff` is what changes in the text, `effect` what changes in the proof. `whys` gives a reason
    for each of the edits, where the plan has reasons.
    """

    edits: tuple[Edit, ...]
    whys: tuple[str, ...] = ()
    before: State
    after: State
    diff: str
    effect: Difference


def try_edits(opened: Opened, edits: Sequence[Edit]) -> Tried:
    """Make the edits on a copy and prove again. Raises CannotUse when they cannot be made."""
    before = state_of(opened)
    after = after_edits(before, edits) if edits else before
    return Tried(
        edits=tuple(edits),
        before=before,
        after=after,
        diff=document_diff(before.opened, after.opened),
        effect=difference(before.proof, after.proof),
    )


def try_changes(opened: Opened, changes: Iterable[Change]) -> Tried:
    """Make edits that have their reasons. Raises CannotUse when they cannot be made."""
    made = tuple(changes)
    tried = try_edits(opened, [edit for edit, _ in made])
    return replace(tried, whys=tuple(why for _, why in made))


def tried_words(tried: Tried) -> str:
    """What the edits do to the proof, in one sentence."""
    if not tried.edits:
        return "nothing has to change in the document"
    gone, new = len(tried.effect.gone), len(tried.effect.new)
    if not gone and not new:
        return "with it the proof finds what it found before"
    counts = [
        f"{tried.before.proof.count(one)} to {tried.after.proof.count(one)} {one.value}s"
        for one in (Severity.FAULT, Severity.RISK)
    ]
    findings = "finding" if gone == 1 else "findings"
    return f"with it the proof goes from {' and '.join(counts)}: {gone} {findings} gone, {new} new"


def tried_json(tried: Tried) -> Json:
    """The edits, the difference they make in the text, and in the proof."""
    return {
        "edits": [edit_json(one) for one in tried.edits],
        "diff": tried.diff,
        "effect": difference_json(tried.effect),
    }
