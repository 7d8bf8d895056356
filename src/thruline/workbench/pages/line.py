"""Line: does it arrive, in time?"""

from collections.abc import Mapping

from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.line_view import line_view
from thruline.base.errors import CannotUse
from thruline.workbench.content import Content


def data(desk: Desk, _keeping: Keeping, asked: Mapping[str, str]) -> Json:
    """The timing chart of the preset asked for, or of the first."""
    return line_view(
        desk.state,
        _number(asked.get("preset")),
        came_from=_number(asked.get("from")),
        settled=bool(asked.get("settled")),
    )


def _number(text: str | None) -> int | None:
    if not text:
        return None
    if not text.isascii() or not text.isdigit() or len(text) > 6:
        raise CannotUse(f'"{text}" is not the number of a preset')
    return int(text)


CONTENT = Content(data=data)
