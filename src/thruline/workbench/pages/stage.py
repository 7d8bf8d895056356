"""Stage: this song, this preset, the next."""

from collections.abc import Mapping

from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.stage_view import stage_json
from thruline.workbench.content import Content


def data(desk: Desk, _keeping: Keeping, _asked: Mapping[str, str]) -> Json:
    """The set."""
    return stage_json(desk.state.opened)


CONTENT = Content(data=data)
