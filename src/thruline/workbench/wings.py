"""What the workbench answers beside its pages: new rigs, deeds, bench, book, plans, records.

Together they load half of the program, so the first page does not wait for them.
"""

import asyncio
from contextlib import suppress
from functools import partial
from typing import NoReturn

from anyio import to_thread
from starlette.background import BackgroundTask
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, Response
from starlette.routing import BaseRoute, Route

from thruline.app.stage_view import stage_json
from thruline.base.errors import CannotUse, WorldFailed
from thruline.bench.systems import Systems
from thruline.bench_wiring import bench_systems
from thruline.binding import today
from thruline.wiring import wall_clock
from thruline.workbench.asked import attachment, read_asked
from thruline.workbench.begin_routes import Beginnings
from thruline.workbench.bench_routes import Benches
from thruline.workbench.book_routes import Books
from thruline.workbench.deeds import deed
from thruline.workbench.find_routes import Records
from thruline.workbench.house import House
from thruline.workbench.pages import PAGES
from thruline.workbench.plan_routes import Plans
from thruline.workbench.room import Room
from thruline.workbench.stage_file import stage_file

BENCH_SECONDS = 0.1
"""How soon pages hear that something happened at the bench."""


class Wings:
    """All that stands around the pages of a house."""

    def __init__(self, house: House, systems: Systems | None = None) -> None:
        self._house = house
        clock = wall_clock()
        self.benches = Benches(house, systems or bench_systems(clock), clock)
        self._beginnings = Beginnings(house)
        self._books = Books(house)
        self._plans = Plans(house)
        self._records = Records(house)

    def routes(self) -> list[BaseRoute]:
        """The addresses."""
        return [
            *self._beginnings.routes(),
            Route("/rig/{rig}/stage/file.html", self.stage_file),
            Route("/rig/{rig}/do/{deed}", self.do, methods=["POST"]),
            *self._plans.routes(),
            *self.benches.routes(),
            *self._books.routes(),
            *self._records.routes(),
            Route("/rig/{rig}/{page}", self.no_page),
        ]

    def turn(self, name: str) -> int:
        """A number that grows with whatever happens at the bench of a rig."""
        return self.benches.turn(name)

    async def look(self) -> None:
        """See what was plugged in and pulled out."""
        await to_thread.run_sync(self.benches.look)

    async def follow(self) -> None:
        """Tell pages what happens at benches, and benches what happens to rigs, for good."""
        told, rigs = dict[str, int](), dict[str, int]()
        while True:
            await asyncio.sleep(BENCH_SECONDS)
            for room in self._house.rooms:
                turn = self.turn(room.name)
                if told.get(room.name) != turn:
                    told[room.name] = turn
                    room.tell()
                if rigs.get(room.name) != room.turn:
                    rigs[room.name] = room.turn
                    await self._house.work(partial(self.benches.use, room.name))

    async def close(self) -> None:
        """Let go of ports, and give up whatever is being worked out."""
        await to_thread.run_sync(self.benches.close)
        self._books.close()
        self._plans.close()
        self._records.close()

    async def do(self, request: Request) -> Response:
        """A deed on a rig."""
        room = await self._house.room(request.path_params["rig"])
        asked = await read_asked(request)
        change = deed(request.path_params["deed"], asked)
        turn = room.turn
        try:
            told = await self._house.work(lambda: room.step(change, have=asked.get("have")))
            return JSONResponse(told, background=BackgroundTask(self._settle, room))
        finally:
            if room.turn != turn:
                room.tell()

    async def _settle(self, room: Room) -> None:
        """Tell the store, now that the page has its answer."""
        turn = room.turn
        with suppress(WorldFailed):  # the next step meets it, and says so
            await self._house.work(room.settle)
        if room.turn != turn:
            room.tell()

    async def stage_file(self, request: Request) -> Response:
        """The Stage page with the set as it is now, to be kept as one file."""
        room = await self._house.room(request.path_params["rig"])
        shown = await self._house.work(lambda: stage_json(room.desk.state.opened))
        name = f"{room.name}.stage.html"
        return HTMLResponse(stage_file(shown, made=today()), headers=attachment(name))

    async def no_page(self, request: Request) -> NoReturn:
        """Say which pages there are."""
        await self._house.room(request.path_params["rig"])
        name = request.path_params["page"].removesuffix(".json")
        raise CannotUse(f'there is no page "{name}"; there are {", ".join(PAGES)}')
