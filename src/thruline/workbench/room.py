"""One rig that is open on the workbench: its desk, and whoever looks at it."""

import asyncio
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TypeAlias

from thruline.app.chart_desk import charts_caught_up
from thruline.app.desk import Desk, Keeping, caught_up, open_desk
from thruline.app.desk_answer import desk_json
from thruline.app.frame import Json
from thruline.app.mend import State
from thruline.desk_wiring import keeping_for
from thruline.workshop.history import KeptElsewhere
from thruline.workshop.late import LateRevisions

Change: TypeAlias = Callable[[Desk, Keeping], Desk]
"""What a deed does to a rig."""
MOST_SHOWN = 12
"""So many states are remembered that browsers may still show: they are told what has changed."""


class Room:
    """A rig under work.

    What changes the desk is called from one worker at a time; who listens is the event loop's.
    """

    def __init__(self, name: str, file: Path) -> None:
        self.name = name
        self.file = file
        self.started = time.time_ns()
        self.turn = 1
        self.took_ms = 0
        self._shown: dict[str, State] = {}
        self._events: set[asyncio.Event] = set()
        self._open()

    def _open(self) -> None:
        keeping = keeping_for(self.file, self.name)
        self._revisions = LateRevisions(keeping.revisions)
        self.keeping: Keeping = replace(keeping, revisions=self._revisions)
        self.desk: Desk = open_desk(self.keeping)
        self._revisions.settle()

    def mark(self) -> str:
        """What is noted by a browser that shows the rig as it is now; the state is remembered."""
        mark = f"{self.started}-{self.turn}"
        self._shown[mark] = self.desk.state
        while len(self._shown) > MOST_SHOWN:
            del self._shown[next(iter(self._shown))]
        return mark

    def shown_at(self, mark: object) -> State | None:
        """The state that a browser with this mark shows, if it is remembered."""
        return self._shown.get(mark) if isinstance(mark, str) else None

    def status(self, before: Desk | None = None, *, have: object = None) -> Json:
        """What stands around every page; `have` is the mark of what the browser shows."""
        old = self.shown_at(have)
        shown = old.proof.findings if old is not None else ()
        return {
            **desk_json(self.desk, before, shown=shown),
            "started": self.started,
            "turn": self.turn,
            "mark": self.mark(),
            "ms": self.took_ms,
        }

    def step(self, change: Change, *, have: object = None) -> Json:
        """Change the desk, and say what stands then. Whatever `change` raises goes on.

        The document is on disk then; the revisions are settled by the next step, or by `settle`.
        """
        before = self.desk
        self._change(change)
        return self.status(before, have=have)

    def _change(self, change: Change) -> None:
        before, began = self.desk, time.perf_counter()
        try:
            self._revisions.settle()
            # What something else wrote is a step of its own: it stands even if the change does not.
            self.desk = caught_up(before, self.keeping)
            self.desk = change(self.desk, self.keeping)
        except KeptElsewhere:
            self._open()
            raise
        finally:
            if self.desk is not before:
                self.turn += 1
            if self.desk.state is not before.state:
                self.took_ms = round((time.perf_counter() - began) * 1000)

    def settle(self) -> None:
        """Keep the revisions that still wait to be kept.

        Where another workbench has come in between, the rig is opened again as it is on disk.
        Raises WorldFailed when the store cannot be reached; they wait on then.
        """
        try:
            self._revisions.settle()
        except KeptElsewhere:
            self._open()
            self.turn += 1

    def look_at_file(self) -> None:
        """Notice what something else has written, into the rig or into a chart that it uses."""
        self._change(charts_caught_up)

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
