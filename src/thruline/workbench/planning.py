"""Plans worked out in a process of their own, which can be ended while it works.

A solver cannot be asked to stop in the middle of a step; a process can be ended at any time. So no
page ever waits for a plan of somebody else, and none goes on for nobody.
"""

import asyncio
import signal
from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from multiprocessing import get_context
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess

from thruline.app.frame import Json
from thruline.app.load import Opened, open_rig
from thruline.app.plan_view import plan_json
from thruline.base.errors import CannotUse, ThrulineError, WorldFailed
from thruline.workshop.inside import InsideShelf

LOOK_SECONDS = 0.02
"""How often it is looked whether the plan is there."""
ASK_SECONDS = 0.5
"""How often it is looked whether anybody still waits."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanWish:
    """A rig with its charts, and what is wished of a plan for it (see `plan_json`)."""

    file: str
    document: str
    charts: tuple[tuple[str, bytes], ...]
    asked: tuple[tuple[str, str], ...]


def plan_wish(opened: Opened, asked: Mapping[str, str]) -> PlanWish:
    """The wish for a plan of a rig as it stands."""
    return PlanWish(
        file=opened.document.file,
        document=opened.document.text,
        charts=tuple((one, opened.sheets[one].content) for one in sorted(opened.charts)),
        asked=tuple(sorted(asked.items())),
    )


def worked_out(wish: PlanWish) -> Json:
    """The plan. Raises CannotUse for a wish that makes no sense."""
    return plan_json(_opened(wish.file, wish.document, wish.charts), dict(wish.asked))


@lru_cache(maxsize=1)  # another plan of the same rig needs no second reading
def _opened(file: str, document: str, charts: tuple[tuple[str, bytes], ...]) -> Opened:
    return open_rig(document, file=file, shelves=(InsideShelf(file, dict(charts)),))


def serve_plans(line: Connection) -> None:
    """Answer wishes until the workbench has gone: what the process does."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # whoever stops the workbench stops it in order
    while True:
        try:
            wish = line.recv()
        except EOFError:
            return
        try:
            line.send(worked_out(wish))
        except ThrulineError as trouble:
            line.send(trouble)


class Planner:
    """The process beside the workbench; it begins with the first plan."""

    def __init__(self) -> None:
        self._process: BaseProcess | None = None
        self._line: Connection | None = None
        self._one_at_a_time = asyncio.Lock()
        self._turns: dict[str, int] = {}
        self._working_for = ""

    async def plan(
        self, rig: str, wish: PlanWish, *, is_gone: Callable[[], Awaitable[bool]]
    ) -> Json | None:
        """The plan that is wished; None when nobody waits for it any more.

        A second wish for the same rig ends the first, those of other rigs wait for their turn.
        Raises CannotUse for a wish that makes no sense or that another has taken the place of, and
        WorldFailed when the process has ended by itself.
        """
        turn = self._turns[rig] = self._turns.get(rig, 0) + 1
        if self._working_for == rig:
            self.stop()
        async with self._one_at_a_time:
            if self._turns[rig] != turn:
                raise _superseded()
            self._working_for = rig
            try:
                found = await self._answer(wish, is_gone)
            except (EOFError, OSError):
                self.stop()
                if self._turns[rig] != turn:
                    raise _superseded() from None
                raise WorldFailed("the plan was broken off; ask for it again") from None
            finally:
                self._working_for = ""
        if isinstance(found, ThrulineError):
            raise found
        return found

    async def _answer(
        self, wish: PlanWish, is_gone: Callable[[], Awaitable[bool]]
    ) -> Json | ThrulineError | None:
        """What the process answers; None when it was ended since nobody waits."""
        line = self._begun()
        line.send(wish)
        waited = 0.0
        while not line.poll():
            await asyncio.sleep(LOOK_SECONDS)
            waited += LOOK_SECONDS
            if waited >= ASK_SECONDS:
                waited = 0.0
                if await is_gone():
                    self.stop()
                    return None
        answer: Json | ThrulineError = line.recv()
        return answer

    def _begun(self) -> Connection:
        if self._line is None:
            context = get_context("spawn")
            here, there = context.Pipe()
            self._process = context.Process(target=serve_plans, args=(there,), daemon=True)
            self._process.start()
            there.close()
            self._line = here
        return self._line

    def stop(self) -> None:
        """End the process, whatever it is at; the next wish begins a new one."""
        process, line, self._process, self._line = self._process, self._line, None, None
        if process is not None:
            process.terminate()
            process.join(1)
        if line is not None:
            line.close()


def _superseded() -> CannotUse:
    return CannotUse("another plan of this rig was asked for meanwhile; this one is given up")
