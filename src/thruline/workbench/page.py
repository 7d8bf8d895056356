"""What every page is."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.mend import State


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """A page: its name in addresses, its heading, the question it answers, and what it shows.

    `data` is given the desk, where it is kept, and what else was asked. `changes`, where a page has
    it, is given the desk and an earlier state that the browser still shows.
    """

    name: str
    title: str
    question: str
    data: Callable[[Desk, Keeping, Mapping[str, str]], Json]
    changes: Callable[[Desk, State], Json] | None = None
