"""Sweeps: what does the pedal move?"""

from collections.abc import Mapping

from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.sweep_view import sweeps_json
from thruline.workbench.content import Content


def data(desk: Desk, _keeping: Keeping, _asked: Mapping[str, str]) -> Json:
    """Every sweep with the curves of its moves."""
    return sweeps_json(desk.state)


CONTENT = Content(data=data)
