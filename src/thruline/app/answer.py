"""How the parts of a proof look to other programs.

One object an answer, with `format` and stable ids; the same facts as the page and the text.
"""

from collections.abc import Mapping, Sequence

from thruline.app.frame import FORMAT, Json, answer
from thruline.app.load import Opened
from thruline.base.address import Address
from thruline.base.edit import Edit
from thruline.proof.difference import Difference
from thruline.proof.engine import Proof
from thruline.proof.finding import Finding, Mend, Untold

__all__ = [
    "FORMAT",
    "Json",
    "answer",
    "difference_json",
    "edit_json",
    "finding_json",
    "mend_json",
    "place_json",
    "proof_json",
    "untold_json",
]


def finding_json(opened: Opened, finding: Finding) -> Json:
    """A finding with where it stands in the document."""
    return {
        "id": finding.id,
        "rule": finding.rule,
        "severity": finding.severity.value,
        "says": finding.says,
        "where": [place_json(opened, address) for address in finding.where],
        "evidence": [
            {"kind": one.kind.value, "rows": [list(row) for row in one.rows]}
            for one in finding.evidence
        ],
        "mends": [mend_json(mend) for mend in finding.mends],
    }


def place_json(opened: Opened, address: Address) -> Json:
    """An address and its spot in the document."""
    spot = opened.document.spot_of(address)
    return {"address": str(address), "file": spot.file, "row": spot.row, "column": spot.column}


def mend_json(mend: Mend) -> Json:
    """A mend with its exact edits."""
    return {
        "says": mend.says,
        "safe": mend.is_safe,
        "edits": [edit_json(edit) for edit in mend.edits],
    }


def edit_json(edit: Edit) -> Json:
    """One edit of a document."""
    return {"do": edit.kind.value, "address": str(edit.address), "value": edit.value}


def untold_json(one: Untold) -> Json:
    """Something that cannot be told, and which fact is missing."""
    return {
        "id": one.id,
        "rule": one.rule,
        "says": one.says,
        "where": [str(address) for address in one.where],
        "lacks": one.lacks,
    }


def difference_json(change: Difference) -> Json:
    """What is gone and what is new, by ids."""
    return {
        "gone": [one.id for one in change.gone],
        "new": [one.id for one in change.new],
        "newly_untold": [one.id for one in change.newly_untold],
    }


def proof_json(opened: Opened, proof: Proof) -> Json:
    """A whole proof."""
    extent = proof.proved
    return {
        "rig": opened.rig.name,
        "file": opened.document.file,
        "verdict": proof.verdict.value,
        "counts": _counts(proof),
        "proved": {
            "rules": extent.rules,
            "units": extent.units,
            "presets": extent.presets,
            "changes": extent.changes,
            "positions": extent.positions,
            "cells": extent.cells,
        },
        "findings": [finding_json(opened, one) for one in proof.findings],
        "accepted": _accepted(opened, proof.accepted),
        "untold": [untold_json(one) for one in proof.untold],
        "undescribed": list(proof.undescribed),
    }


def _counts(proof: Proof) -> Mapping[str, int]:
    by_severity = {"fault": 0, "risk": 0, "advice": 0}
    for finding in proof.findings:
        by_severity[finding.severity.value] += 1
    return {**by_severity, "accepted": len(proof.accepted), "untold": len(proof.untold)}


def _accepted(opened: Opened, accepted: Sequence[tuple[Finding, str]]) -> list[Json]:
    return [{**finding_json(opened, one), "reason": reason} for one, reason in accepted]
