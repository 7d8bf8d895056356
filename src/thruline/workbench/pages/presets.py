"""Presets: what does each preset do?"""

from collections.abc import Mapping

from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.mend import State
from thruline.app.preset_grid import grid_json
from thruline.app.preset_order import preset_facts_json
from thruline.workbench.content import Content


def data(desk: Desk, _keeping: Keeping, asked: Mapping[str, str]) -> Json:
    """The whole sheet, or the facts of one preset."""
    if "about" in asked:
        return preset_facts_json(desk.state, asked["about"])
    return grid_json(desk.state)


def changes(desk: Desk, before: State) -> Json:
    """The rows that have changed, or the whole sheet when it has other rows or columns."""
    return grid_json(desk.state, before)


CONTENT = Content(data=data, changes=changes)
