"""Saved states of a rig: listed, and one held against another."""

import difflib

from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.load import open_again
from thruline.app.mend import state_of
from thruline.base.errors import CannotUse
from thruline.proof.difference import difference

AROUND = 2
"""Rows shown around each change."""


def revisions_json(desk: Desk, keeping: Keeping, *, old: int | None = None) -> Json:
    """Every revision, the last first; with `old`, what has changed since that one.

    Raises CannotUse when there is none of the number.
    """
    return {
        "revisions": [
            {
                "number": one.number,
                "cause": one.cause.value,
                "says": one.says,
                "at": one.at,
                "name": one.name,
                "is_now": one.number == desk.history.now,
            }
            for one in keeping.revisions.listed()
        ],
        "compared": None if old is None else compared(desk, keeping, old),
    }


def compared(desk: Desk, keeping: Keeping, old: int) -> Json:
    """An earlier revision held against what is on the desk: rows of text, and findings."""
    text = keeping.revisions.text(old)
    rows = difflib.unified_diff(
        text.splitlines(), desk.text.splitlines(), n=AROUND, lineterm="", fromfile="", tofile=""
    )
    told: Json = {"old": old, "rows": list(rows)[2:], "gone": [], "new": [], "unusable": ""}
    try:
        before = state_of(open_again(desk.state.opened, text), desk.state.case)
    except CannotUse as trouble:
        return {**told, "unusable": trouble.says}
    change = difference(before.proof, desk.state.proof)
    told["gone"] = [one.says for one in change.gone]
    told["new"] = [one.says for one in change.new]
    return told
