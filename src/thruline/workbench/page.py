"""What every page is."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.mend import State


class Page(NamedTuple):
    """A page: its name in addresses, its heading, and the question that it answers."""

    name: str
    title: str
    question: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """What a page shows.

    `data` is given the desk, where it is kept, and what else was asked. `changes`, where a page has
    it, is given the desk and an earlier state that the browser still shows.
    """

    data: Callable[[Desk, Keeping, Mapping[str, str]], Json]
    changes: Callable[[Desk, State], Json] | None = None
