"""Rig: what is this board, how does the sound go, and what is played?"""

from collections.abc import Mapping

from thruline.app.desk import Desk, Keeping
from thruline.app.fact_view import rig_facts_json
from thruline.app.frame import Json
from thruline.workbench.content import Content


def data(desk: Desk, _keeping: Keeping, _asked: Mapping[str, str]) -> Json:
    """The rig's own facts, the way of the sound, songs, and accepted findings."""
    return rig_facts_json(desk.state)


CONTENT = Content(data=data)
