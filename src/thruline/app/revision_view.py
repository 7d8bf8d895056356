"""Saved states of a rig, or of a chart beside it: listed, and one held against another."""

import difflib
from collections.abc import Callable, Iterable

from thruline.app.chart_desk import chart_as_before, standing
from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.load import open_again
from thruline.app.mend import State, state_of
from thruline.base.errors import CannotUse
from thruline.proof.difference import difference
from thruline.workshop.history import Revision

AROUND = 2
"""Rows shown around each change."""


def revisions_json(
    desk: Desk, keeping: Keeping, *, old: int | None = None, chart: str = ""
) -> Json:
    """Every revision, the last first; with `old`, what has changed since that one.

    They are those of the rig, or of the chart beside it that is named. Raises CannotUse when there
    is no such chart, or no revision of the number.
    """
    told = _of_chart(desk, keeping, chart, old) if chart else _of_rig(desk, keeping, old)
    return {**told, "chart": chart, "charts": list(keeping.charts.ids())}


def _of_rig(desk: Desk, keeping: Keeping, old: int | None) -> Json:
    return {
        "revisions": _listed(keeping.revisions.listed(), desk.history.now),
        "compared": None if old is None else compared(desk, keeping, old),
    }


def _of_chart(desk: Desk, keeping: Keeping, chart: str, old: int | None) -> Json:
    if chart not in keeping.charts.ids():
        raise CannotUse(f'there is no chart "{chart}" beside the rig; only those have revisions')
    file, revisions = keeping.charts.kept(chart)
    content = file.read()
    now = standing(file, revisions, content).history.now
    listed = _listed(revisions.listed(), now)
    if old is None:
        return {"revisions": listed, "compared": None}
    texts = revisions.text(old), content.decode(errors="replace")

    def before() -> State:
        return chart_as_before(desk, keeping, chart, number=old).state

    return {"revisions": listed, "compared": _compared(desk.state, old, texts, before)}


def _listed(revisions: Iterable[Revision], now: int) -> list[Json]:
    return [
        {
            "number": one.number,
            "cause": one.cause.value,
            "says": one.says,
            "at": one.at,
            "name": one.name,
            "is_now": one.number == now,
        }
        for one in revisions
    ]


def compared(desk: Desk, keeping: Keeping, old: int) -> Json:
    """An earlier revision held against what is on the desk: rows of text, and findings."""
    text = keeping.revisions.text(old)

    def before() -> State:
        return state_of(open_again(desk.state.opened, text), desk.state.case)

    return _compared(desk.state, old, (text, desk.text), before)


def _compared(now: State, old: int, texts: tuple[str, str], before: Callable[[], State]) -> Json:
    rows = difflib.unified_diff(
        texts[0].splitlines(), texts[1].splitlines(), n=AROUND, lineterm="", fromfile="", tofile=""
    )
    told: Json = {"old": old, "rows": list(rows)[2:], "gone": [], "new": [], "unusable": ""}
    try:
        change = difference(before().proof, now.proof)
    except CannotUse as trouble:
        return {**told, "unusable": trouble.says}
    told["gone"] = [one.says for one in change.gone]
    told["new"] = [one.says for one in change.new]
    return told
