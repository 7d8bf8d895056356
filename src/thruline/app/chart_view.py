"""Charts for a page that fills them in: all by their ids, and one of them clause by clause."""

from thruline.app.chart import Looked, look_at, missing_json
from thruline.app.chart_desk import Standing, standing
from thruline.app.chart_heads import chart_heads
from thruline.app.desk import Desk, Keeping
from thruline.app.fact_view import clauses_json
from thruline.app.frame import Json, problem_json
from thruline.base.errors import CannotUse
from thruline.document.chart_shape import ChartShape
from thruline.document.facts import clauses
from thruline.workshop.face import Sheet
from thruline.workshop.history import History


def charts_json(desk: Desk, keeping: Keeping, chart_id: str) -> Json:
    """Every chart on the shelves, and one of them: its clauses, what is wrong, what it lacks.

    Without an id it is the first that the rig uses. Raises WorldFailed when a file is not read.
    """
    own = set(keeping.charts.ids())
    used = set(desk.state.opened.charts)
    heads = chart_heads(keeping.shelves)
    ids = [one["id"] for one in heads]
    listed = [{**one, "is_own": one["id"] in own, "is_used": one["id"] in used} for one in heads]
    chosen = chart_id or next(iter(sorted(used)), "")
    chart = _chart_json(keeping, chosen) if chosen in ids else None
    return {"asked": chosen, "charts": listed, "chart": chart}


def _chart_json(keeping: Keeping, chart_id: str) -> Json | None:
    for shelf in keeping.shelves:
        sheet = shelf.find(chart_id)
        if sheet is None:
            continue
        is_own = chart_id in keeping.charts.ids()
        stood = _standing(keeping, chart_id) if is_own else Standing(History())
        return {
            "id": chart_id,
            "file": sheet.file.replace("\\", "/").rpartition("/")[2],
            "shelf": shelf.says,
            "is_own": is_own,
            **_contents(sheet),
            "revision": stood.history.now,
            "can_undo": stood.can_undo,
            "can_redo": bool(stood.history.redo),
        }
    return None


def _contents(sheet: Sheet) -> Json:
    try:
        looked = look_at(sheet)
    except CannotUse as trouble:  # it is no chart at all, but a rig
        return {"clauses": [], "problems": [{"says": trouble.says}], "missing": []}
    return {
        "clauses": _clauses(looked),
        "problems": [problem_json(one) for one in looked.problems],
        "missing": [missing_json(one) for one in looked.missing],
    }


def _clauses(looked: Looked) -> list[Json]:
    """The clauses of a chart whose shape can be read, even if it does not fit together."""
    if looked.document is None:
        return []
    return clauses_json(clauses(ChartShape, looked.document.data))


def _standing(keeping: Keeping, chart_id: str) -> Standing:
    file, revisions = keeping.charts.kept(chart_id)
    return standing(file, revisions, file.read())
