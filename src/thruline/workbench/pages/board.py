"""Board: where does everything stand, and which leads are needed?"""

from collections.abc import Mapping

from thruline.app.board_view import board_json
from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.workbench.content import Content


def data(desk: Desk, _keeping: Keeping, _asked: Mapping[str, str]) -> Json:
    """Units to scale, sockets and cables."""
    return board_json(desk.state)


CONTENT = Content(data=data)
