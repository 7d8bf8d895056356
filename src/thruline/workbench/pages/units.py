"""Units: how is each unit set, and what is plugged into what?"""

from collections.abc import Mapping

from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.unit_renaming import unit_facts_json
from thruline.app.unit_view import units_json
from thruline.workbench.content import Content


def data(desk: Desk, keeping: Keeping, asked: Mapping[str, str]) -> Json:
    """Every unit and cable, and the charts that more can be added from; or one unit's facts."""
    if "about" in asked:
        return unit_facts_json(desk.state, asked["about"])
    return units_json(desk.state, keeping.shelves)


CONTENT = Content(data=data)
