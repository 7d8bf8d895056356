"""Find: which one thing is wrong?"""

from collections.abc import Mapping

from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.search_view import card_view, search_json
from thruline.workbench.content import Content


def data(desk: Desk, keeping: Keeping, asked: Mapping[str, str]) -> Json:
    """The search as it stands, or the fault-finding card when that is asked for."""
    return card_view(desk) if asked.get("card") else search_json(desk, keeping)


CONTENT = Content(data=data)
