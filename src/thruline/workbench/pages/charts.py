"""Charts: what does each model of unit answer to, and what is still missing?"""

from collections.abc import Mapping

from thruline.app.chart_view import charts_json
from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.workbench.content import Content


def data(desk: Desk, keeping: Keeping, asked: Mapping[str, str]) -> Json:
    """Every chart by its id, and the chosen one fact by fact."""
    return charts_json(desk, keeping, asked.get("chart", ""))


CONTENT = Content(data=data)
