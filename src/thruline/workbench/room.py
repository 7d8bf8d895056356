"""One rig that is open on the workbench: its desk, and whoever looks at it."""

import asyncio
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from thruline.app.desk import Desk, Keeping, caught_up, open_desk
from thruline.app.desk_answer import desk_json
from thruline.app.frame import Json
from thruline.wiring import keeping_for
from thruline.workshop.history import KeptElsewhere


class Room:
    """A rig under work.

    What changes the desk is called from one worker at a time; who listens is the event loop's.
    """

    def __init__(self, name: str, file: Path) -> None:
        self.name = name
        self.file = file
        self.keeping: Keeping = keeping_for(file)
        self.desk: Desk = open_desk(self.keeping)
        self.started = time.time_ns()
        self.turn = 1
        self.took_ms = 0
        self._events: set[asyncio.Event] = set()

    def status(self, before: Desk | None = None) -> Json:
        """What stands around every page."""
        return {
            **desk_json(self.desk, before),
            "started": self.started,
            "turn": self.turn,
            "ms": self.took_ms,
        }

    def step(self, change: Callable[[Desk, Keeping], Desk]) -> Json:
        """Change the desk, and say what stands then. Whatever `change` raises goes on."""
        before, began = self.desk, time.perf_counter()
        try:
            self.desk = change(before, self.keeping)
        except KeptElsewhere:
            self.keeping = keeping_for(self.file)
            self.desk = open_desk(self.keeping)
            self.turn += 1
            raise
        if self.desk is not before:
            self.turn += 1
        if self.desk.state is not before.state:
            self.took_ms = round((time.perf_counter() - began) * 1000)
        return self.status(before)

    def look_at_file(self) -> None:
        """Notice what something else has written."""
        self.step(caught_up)

    @property
    def is_watched(self) -> bool:
        """Whether anybody has a page of it open."""
        return bool(self._events)

    def tell(self) -> None:
        """Wake everybody who listens."""
        for event in self._events:
            event.set()

    @contextmanager
    def listening(self) -> Iterator[asyncio.Event]:
        """An event that is set whenever there is something new to be seen."""
        event = asyncio.Event()
        self._events.add(event)
        try:
            yield event
        finally:
            self._events.discard(event)
