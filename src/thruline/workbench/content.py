"""What pages show: each in the module of its name, loaded when the page is first opened."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib import import_module

from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.app.mend import State
from thruline.workbench.page import Page
from thruline.workbench.room import Room


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """What a page shows.

    `data` is given the desk, where it is kept, and what else was asked. `changes`, where a page has
    it, is given the desk and an earlier state that the browser still shows.
    """

    data: Callable[[Desk, Keeping, Mapping[str, str]], Json]
    changes: Callable[[Desk, State], Json] | None = None


def content_of(page: Page) -> Content:
    """What a page shows."""
    content: Content = import_module(f"thruline.workbench.pages.{page.name}").CONTENT
    return content


def shown(page: Page, room: Room, asked: Mapping[str, str]) -> Json:
    """What a page shows, or what has changed since the state that the browser shows."""
    content, before = content_of(page), room.shown_at(asked.get("have"))
    if content.changes is not None and before is not None:
        data = content.changes(room.desk, before)
    else:
        data = content.data(room.desk, room.keeping, asked)
    return {**data, "turn": room.turn, "mark": room.mark(), "revision": room.desk.history.now}
