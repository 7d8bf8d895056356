"""Revisions: what was it before, and what has changed since?"""

from collections.abc import Mapping

from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.revision_view import revisions_json
from thruline.base.errors import CannotUse
from thruline.workbench.content import Content


def data(desk: Desk, keeping: Keeping, asked: Mapping[str, str]) -> Json:
    """Every saved state of the rig or of a chart, and one held against what it is now."""
    old = asked.get("with", "")
    if old and not (old.isascii() and old.isdigit() and len(old) < 10):
        raise CannotUse(f'"{old}" is not the number of a revision')
    chart = asked.get("chart", "")
    return revisions_json(desk, keeping, old=int(old) if old else None, chart=chart)


CONTENT = Content(data=data)
