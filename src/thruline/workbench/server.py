"""The routes, as one table, and the door at which every trouble is caught."""

import asyncio
import contextlib
import json
from collections.abc import AsyncIterator, Callable, Mapping
from functools import partial
from pathlib import Path

from anyio import to_thread
from jinja2 import Environment, PackageLoader
from starlette.applications import Starlette
from starlette.background import BackgroundTask
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import FileResponse, HTMLResponse, JSONResponse, RedirectResponse, Response
from starlette.routing import Mount, Route, WebSocketRoute
from starlette.staticfiles import StaticFiles
from starlette.websockets import WebSocket, WebSocketDisconnect

from thruline.app.frame import Json
from thruline.app.stage_view import stage_json
from thruline.base.errors import CannotUse, ThrulineError, WorldFailed
from thruline.bench.systems import Systems
from thruline.bench_wiring import bench_systems
from thruline.binding import today
from thruline.wiring import wall_clock
from thruline.workbench.asked import attachment, read_asked, refusal
from thruline.workbench.bench_routes import Benches
from thruline.workbench.book_routes import Books
from thruline.workbench.deeds import deed
from thruline.workbench.devices import link_page
from thruline.workbench.find_routes import Records
from thruline.workbench.front_routes import Front
from thruline.workbench.guard import COOKIE, Doors, Guard, is_this_machine
from thruline.workbench.house import House
from thruline.workbench.look import colours_css
from thruline.workbench.page import Page
from thruline.workbench.pages import PAGES
from thruline.workbench.plan_routes import Plans
from thruline.workbench.room import Room
from thruline.workbench.stage_file import stage_file

STATIC = Path(__file__).parent / "static"
WATCH_SECONDS = 0.7
"""How often files are looked at while somebody has a page open."""
BENCH_SECONDS = 0.1
"""How soon pages hear that something happened at the bench."""


PACKING = 4
"""How hard answers are packed: a sheet of 200 kB takes 2 ms so, and 12 ms at the hardest."""


class Workbench:
    """The house, its doors, and what is answered."""

    def __init__(self, house: House, doors: Doors, systems: Systems | None = None) -> None:
        self.house = house
        self.doors = doors
        clock = wall_clock()
        self.benches = Benches(house, systems or bench_systems(clock), clock)
        self.books = Books(house)
        self.plans = Plans(house)
        self.records = Records(house)
        self.address = ""
        """How other devices reach this server; empty when they cannot."""
        self._templates = Environment(
            loader=PackageLoader("thruline.workbench"), autoescape=True, trim_blocks=True
        )
        self.front = Front(house, self._fill)

    def app(self) -> Starlette:
        """The whole, as a server runs it."""
        return Starlette(
            routes=[
                *self.front.routes(),
                Route("/colours.css", self.colours),
                Route("/enter/{token}", self.enter),
                Route("/link", self.link, methods=["POST"]),
                Route("/stage-worker.js", self.stage_worker),
                Route("/rig/{rig}/", self.first_page),
                Route("/rig/{rig}/status.json", self.status),
                Route("/rig/{rig}/stage/file.html", self.stage_file),
                Route("/rig/{rig}/do/{deed}", self.do, methods=["POST"]),
                *self.plans.routes(),
                Route("/rig/{rig}/{page}.json", self.page_data),
                *self.benches.routes(),
                *self.books.routes(),
                *self.records.routes(),
                WebSocketRoute("/rig/{rig}/live", self.live),
                Route("/rig/{rig}/{page}", self.page),
                Mount("/static", StaticFiles(directory=STATIC)),
            ],
            middleware=[
                Middleware(Guard, doors=self.doors),
                Middleware(GZipMiddleware, minimum_size=800, compresslevel=PACKING),
            ],
            exception_handlers={ThrulineError: self._say, Exception: _stumble},
            lifespan=self._watching,
        )

    @contextlib.asynccontextmanager
    async def _watching(self, _app: Starlette) -> AsyncIterator[None]:
        async def watch() -> None:
            while True:
                await asyncio.sleep(WATCH_SECONDS)
                await self.house.look_at_files()
                await to_thread.run_sync(self.benches.look)

        async def follow_benches() -> None:
            told, rigs = dict[str, int](), dict[str, int]()
            while True:
                await asyncio.sleep(BENCH_SECONDS)
                for room in self.house.rooms:
                    turn = self.benches.turn(room.name)
                    if told.get(room.name) != turn:
                        told[room.name] = turn
                        room.tell()
                    if rigs.get(room.name) != room.turn:
                        rigs[room.name] = room.turn
                        await self.house.work(partial(self.benches.use, room.name))

        works = (watch, follow_benches, self._open_ahead)
        tasks = [asyncio.create_task(one()) for one in works]
        yield
        for task in tasks:
            task.cancel()
        for room in self.house.rooms:
            with contextlib.suppress(ThrulineError):  # the document is on disk all the same
                await self.house.work(room.settle)
        await to_thread.run_sync(self.benches.close)
        self.books.close()
        self.plans.close()
        self.records.close()

    async def _open_ahead(self) -> None:
        """Open the only rig while the browser still starts."""
        with contextlib.suppress(ThrulineError):  # the first page meets it again, and says so
            names = self.house.names
            if len(names) == 1:
                await self.house.room(names[0])

    def _fill(self, template: str, status: int = 200, /, **facts: object) -> HTMLResponse:
        return HTMLResponse(self._templates.get_template(template).render(**facts), status)

    async def _say(self, request: Request, trouble: Exception) -> Response:
        """What is amiss: on a page for who follows a link, as data for who asks for that."""
        if not isinstance(trouble, ThrulineError):
            raise trouble
        told = refusal(trouble)
        if "text/html" not in request.headers.get("accept", ""):
            return told
        return self._fill("unusable.html", told.status_code, says=trouble.says, page=None)

    async def first_page(self, request: Request) -> Response:
        """A rig without a page is its line."""
        return RedirectResponse(f"/rig/{request.path_params['rig']}/line")

    async def page(self, request: Request) -> Response:
        """A page of a rig, with all that it shows at first."""
        page = _page(request)
        room = await self.house.room(request.path_params["rig"])
        status = await self.house.work(room.status)
        return self._fill(
            f"{page.name}.html",
            room=room,
            page=page,
            pages=PAGES.values(),
            status=status,
            is_home=is_this_machine(request),
        )

    async def page_data(self, request: Request) -> Response:
        """What a page shows, as it is now."""
        page = _page(request)
        room = await self.house.room(request.path_params["rig"])
        asked = dict(request.query_params)
        return JSONResponse(await self.house.work(lambda: _shown(page, room, asked)))

    async def status(self, request: Request) -> Response:
        """What stands around every page, as it is now."""
        room = await self.house.room(request.path_params["rig"])
        have = request.query_params.get("have")
        return JSONResponse(await self.house.work(lambda: room.status(have=have)))

    async def do(self, request: Request) -> Response:
        """A deed on a rig."""
        room = await self.house.room(request.path_params["rig"])
        asked = await read_asked(request)
        change = deed(request.path_params["deed"], asked)
        turn = room.turn
        try:
            told = await self.house.work(lambda: room.step(change, have=asked.get("have")))
            return JSONResponse(told, background=BackgroundTask(self._settle, room))
        finally:
            if room.turn != turn:
                room.tell()

    async def _settle(self, room: Room) -> None:
        """Tell the store, now that the page has its answer."""
        turn = room.turn
        with contextlib.suppress(WorldFailed):  # the next step meets it, and says so
            await self.house.work(room.settle)
        if room.turn != turn:
            room.tell()

    async def live(self, socket: WebSocket) -> None:
        """The turns of a rig, one after the other, as they happen."""
        try:
            room = await self.house.room(socket.path_params["rig"])
        except CannotUse:
            await socket.close(1008)
            return
        await socket.accept()
        with room.listening() as event:

            def turns() -> dict[str, int]:
                return {"turn": room.turn, "bench": self.benches.turn(room.name)}

            sending = asyncio.create_task(_send_turns(socket, event, turns))
            with contextlib.suppress(WebSocketDisconnect):
                while True:
                    await socket.receive_text()
            sending.cancel()

    async def link(self, request: Request) -> Response:
        """A link for one more device, and its code to be photographed."""
        if not is_this_machine(request):
            raise CannotUse("devices are let in from the workbench's own machine")
        return JSONResponse(link_page(self.address, self.doors))

    async def enter(self, request: Request) -> Response:
        """A device comes in by its link."""
        shown = self.doors.enter(request.path_params["token"])
        if shown is None:
            return self._fill("refused.html", page=None)
        answer = RedirectResponse("/", 303)
        answer.set_cookie(COOKIE, shown, httponly=True, samesite="strict", max_age=30 * 86400)
        return answer

    async def colours(self, _request: Request) -> Response:
        """The colours, light and dark, as variables."""
        return Response(colours_css(), media_type="text/css")

    async def stage_worker(self, _request: Request) -> Response:
        """The worker of the Stage page; it lies at the top so that it may serve every rig."""
        script = STATIC / "stage-worker.js"
        return FileResponse(script, headers={"cache-control": "no-cache"})

    async def stage_file(self, request: Request) -> Response:
        """The Stage page with the set as it is now, to be kept as one file."""
        room = await self.house.room(request.path_params["rig"])
        shown = await self.house.work(lambda: stage_json(room.desk.state.opened))
        name = f"{room.name}.stage.html"
        return HTMLResponse(stage_file(shown, made=today()), headers=attachment(name))


def _shown(page: Page, room: Room, asked: Mapping[str, str]) -> Json:
    """What a page shows, or what has changed since the state that the browser shows."""
    before = room.shown_at(asked.get("have"))
    if page.changes is not None and before is not None:
        data = page.changes(room.desk, before)
    else:
        data = page.data(room.desk, room.keeping, asked)
    return {**data, "turn": room.turn, "mark": room.mark(), "revision": room.desk.history.now}


async def _send_turns(
    socket: WebSocket, event: asyncio.Event, turns: Callable[[], dict[str, int]]
) -> None:
    while True:
        event.clear()
        await socket.send_text(json.dumps(turns()))
        await event.wait()


def _page(request: Request) -> Page:
    name = request.path_params["page"]
    if name not in PAGES:
        raise CannotUse(f'there is no page "{name}"; there are {", ".join(PAGES)}')
    return PAGES[name]


async def _stumble(_request: Request, trouble: Exception) -> Response:
    """The program's own fault: the page says so, and goes on."""
    says = f"the workbench itself went wrong here ({type(trouble).__name__}); nothing was changed"
    return JSONResponse({"says": says}, 500)
