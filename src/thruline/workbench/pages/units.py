"""Units: how is each unit set, and what is plugged into what?"""

from collections.abc import Mapping

from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.unit_view import units_json
from thruline.workbench.page import Page


def data(desk: Desk, keeping: Keeping, _asked: Mapping[str, str]) -> Json:
    """Every unit and cable, and the charts that more can be added from."""
    return units_json(desk.state, keeping.shelves)


PAGE = Page(
    name="units",
    title="Units",
    question="How is each unit set, and what is plugged into what?",
    data=data,
)
