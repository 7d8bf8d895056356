"""Presets: what does each preset do?"""

from collections.abc import Mapping

from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.preset_grid import grid_json
from thruline.workbench.page import Page


def data(desk: Desk, _keeping: Keeping, _asked: Mapping[str, str]) -> Json:
    """The whole sheet."""
    return grid_json(desk.state)


PAGE = Page(name="presets", title="Presets", question="What does each preset do?", data=data)
