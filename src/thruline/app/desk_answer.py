"""A desk for a page: the proof in brief, every finding with its mends, what can be undone."""

from collections.abc import Sequence

from thruline.app.answer import edit_json
from thruline.app.desk import Desk
from thruline.app.frame import Json
from thruline.base.edit import Edit
from thruline.base.errors import CannotUse
from thruline.papers.proof_words import (
    counts_in_words,
    extent_in_words,
    looked,
    undescribed_words,
)
from thruline.proof.difference import difference
from thruline.proof.finding import Finding, Severity
from thruline.proof.rulebook import rule_called


def desk_json(desk: Desk, before: Desk | None = None, *, shown: Sequence[Finding] = ()) -> Json:
    """All that stands around every page; with an earlier desk, also what has come and gone.

    A finding that is `shown` already is told by its place there, a number, instead of in full.
    """
    proof = desk.state.proof
    places = {id(one): place for place, one in enumerate(shown)}
    return {
        "rig": desk.state.opened.rig.name,
        "revision": desk.history.now,
        "can_undo": bool(desk.history.undo),
        "can_redo": bool(desk.history.redo),
        "unreadable": desk.unreadable.says if desk.unreadable else None,
        "charts_lost": [
            f'The chart "{chart}" beside the rig cannot be used as it is now; what stands here is '
            f"with the chart as it was. {why}"
            for chart, why in desk.charts_lost.items()
        ],
        "faults": proof.count(Severity.FAULT),
        "verdict": proof.verdict.value,
        "says": counts_in_words(proof),
        "proved": f"{extent_in_words(proof)} {looked(proof)}",
        "silent": undescribed_words(proof),
        "findings": [
            places[id(one)] if id(one) in places else _finding(one) for one in proof.findings
        ],
        "accepted": [
            {"says": one.says, "reason": reason, "severity": one.severity.value}
            for one, reason in proof.accepted
        ],
        "untold": [{"says": one.says, "lacks": one.lacks} for one in proof.untold],
        "effect": _effect(before, desk) if before else None,
    }


def mend_edits(desk: Desk, finding_id: str, *, says: str) -> tuple[Edit, ...]:
    """The edits of a mend, by its finding and its words.

    Raises CannotUse when the finding has gone or no longer has that mend.
    """
    for finding in desk.state.proof.findings:
        if finding.id == finding_id:
            for mend in finding.mends:
                if mend.says == says:
                    return mend.edits
    raise CannotUse(f'"{says}" is no longer needed: the rig was changed meanwhile')


def _finding(finding: Finding) -> Json:
    rule = rule_called(finding.rule)
    return {
        "id": finding.id,
        "severity": finding.severity.value,
        "title": rule.title,
        "why": rule.why,
        "says": finding.says,
        "where": [str(one) for one in finding.where],
        "evidence": [list(row) for one in finding.evidence for row in one.rows],
        "mends": [
            {"says": mend.says, "edits": [_edit(edit) for edit in mend.edits]}
            for mend in finding.mends
        ],
    }


def _edit(edit: Edit) -> str:
    told = edit_json(edit)
    return f"{told['do']} {told['address']}" + ("" if edit.value is None else f" = {edit.value}")


def _effect(before: Desk, desk: Desk) -> Json | None:
    """What the last step did to the proof."""
    if before.state is desk.state:
        return None
    change = difference(before.state.proof, desk.state.proof)
    return {
        "gone": [one.says for one in change.gone],
        "new": [one.says for one in change.new],
    }
