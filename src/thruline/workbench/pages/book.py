"""Book: what does a stranger need to know of this board?"""

from collections.abc import Mapping

from thruline.app.book_parts import PARTS
from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.sheet import SHEETS
from thruline.papers.book_data import PAPERS
from thruline.workbench.content import Content


def data(_desk: Desk, _keeping: Keeping, _asked: Mapping[str, str]) -> Json:
    """What can be printed, and on which paper."""
    return {"parts": list(PARTS), "sheets": list(SHEETS), "papers": list(PAPERS)}


CONTENT = Content(data=data)
