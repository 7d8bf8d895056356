"""The routes, as one table, and the door at which every trouble is caught."""

import asyncio
import contextlib
import json
import logging
from collections.abc import AsyncIterator, Awaitable, Callable
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

from thruline.base.errors import CannotUse, ThrulineError
from thruline.bench.systems import Systems
from thruline.workbench.asked import refusal
from thruline.workbench.devices import link_page
from thruline.workbench.guard import COOKIE, Doors, Guard, is_this_machine
from thruline.workbench.house import House
from thruline.workbench.later import Later, Wing
from thruline.workbench.look import colours_css
from thruline.workbench.page import Page
from thruline.workbench.pages import PAGES

STATIC = Path(__file__).parent / "static"
WATCH_SECONDS = 0.7
"""How often files are looked at while somebody has a page open."""
DRAWN_SECONDS = 0.3
"""How long a page takes at most to draw what it has got."""
IDLE_SECONDS = 2
"""When nobody has opened a page by then, there is time for what the first page does not need."""
NOWHERE = 404
PACKING = 4
"""How hard answers are packed: a sheet of 200 kB takes 2 ms so, and 12 ms at the hardest."""


class Workbench:
    """The house, its doors, and what is answered."""

    def __init__(self, house: House, doors: Doors, systems: Systems | None = None) -> None:
        self.house = house
        self.doors = doors
        self.wings = Later(partial(_wings, house, systems))
        self._shown = asyncio.Event()
        """Set once a page has all that it shows."""
        self.address = ""
        """How other devices reach this server; empty when they cannot."""
        self._templates = Environment(
            loader=PackageLoader("thruline.workbench"), autoescape=True, trim_blocks=True
        )

    def app(self) -> Starlette:
        """The whole, as a server runs it."""
        pages = PAGES.values()
        app = Starlette(
            routes=[
                Route("/", self.first),
                Route("/rigs", self.front),
                Route("/colours.css", self.colours),
                Route("/enter/{token}", self.enter),
                Route("/link", self.link, methods=["POST"]),
                Route("/stage-worker.js", self.stage_worker),
                Route("/rig/{rig}/", self.first_page),
                Route("/rig/{rig}/status.json", self.status),
                WebSocketRoute("/rig/{rig}/live", self.live),
                *(Route(f"/rig/{{rig}}/{one.name}", partial(self.page, one)) for one in pages),
                *(
                    Route(f"/rig/{{rig}}/{one.name}.json", partial(self.page_data, one))
                    for one in pages
                ),
                Mount("/static", StaticFiles(directory=STATIC)),
            ],
            middleware=[
                Middleware(Guard, doors=self.doors),
                Middleware(GZipMiddleware, minimum_size=800, compresslevel=PACKING),
            ],
            exception_handlers={
                ThrulineError: self._say,
                NOWHERE: self._nowhere,
                Exception: _stumble,
            },
            lifespan=self._watching,
        )
        app.router.default = self.wings
        return app

    @contextlib.asynccontextmanager
    async def _watching(self, _app: Starlette) -> AsyncIterator[None]:
        async def look() -> None:
            await self.house.look_at_files()
            if self.wings.loaded:
                await self.wings.loaded.look()

        async def follow_benches() -> None:
            with contextlib.suppress(TimeoutError):
                await asyncio.wait_for(self._shown.wait(), IDLE_SECONDS)
            await asyncio.sleep(DRAWN_SECONDS)
            await (await self.wings.here()).follow()

        works = (partial(_watch, look), follow_benches, self._open_ahead)
        tasks = [asyncio.create_task(one()) for one in works]
        yield
        for task in tasks:
            task.cancel()
        for room in self.house.rooms:
            with contextlib.suppress(ThrulineError):  # the document is on disk all the same
                await self.house.work(room.settle)
        if self.wings.loaded:
            await self.wings.loaded.close()

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
        if not _wants_page(request):
            return told
        return self._fill("unusable.html", told.status_code, says=trouble.says, page=None)

    async def _nowhere(self, request: Request, _trouble: Exception) -> Response:
        """An address where nothing is."""
        says = f'there is nothing at "{request.url.path}"'
        if not _wants_page(request):
            return JSONResponse({"says": says}, NOWHERE)
        return self._fill("unusable.html", NOWHERE, says=says, page=None)

    async def first(self, _request: Request) -> Response:
        """The only rig at once, or the rigs to choose from."""
        names = await to_thread.run_sync(lambda: self.house.names)
        return RedirectResponse(f"/rig/{names[0]}/" if len(names) == 1 else "/rigs")

    async def front(self, _request: Request) -> Response:
        """The rigs to choose from, and a new one to begin; of a single document, the rig."""
        if self.house.is_one:
            return RedirectResponse("/")
        rigs = await to_thread.run_sync(lambda: self.house.titles)
        folder = self.house.folder.resolve().name
        return self._fill("front.html", rigs=rigs, folder=folder, page=None)

    async def first_page(self, request: Request) -> Response:
        """A rig without a page is its line."""
        return RedirectResponse(f"/rig/{request.path_params['rig']}/line")

    async def page(self, page: Page, request: Request) -> Response:
        """A page of a rig, and what stands around it.

        While the first rig is still being opened the page comes without that, and asks for it.
        """
        name, status = request.path_params["rig"], None
        if self.house.is_new:
            await to_thread.run_sync(self.house.file, name)
        else:
            room = await self.house.room(name)
            status = await self.house.work(room.status)
        return self._fill(
            f"{page.name}.html",
            name=name,
            rig=status["rig"] if status else name,
            page=page,
            pages=PAGES.values(),
            status=status,
            is_home=is_this_machine(request),
        )

    async def page_data(self, page: Page, request: Request) -> Response:
        """What a page shows, as it is now."""
        from thruline.workbench.content import shown  # noqa: PLC0415 - heavy, as a room is

        room = await self.house.room(request.path_params["rig"])
        asked = dict(request.query_params)
        told = await self.house.work(lambda: shown(page, room, asked))
        return JSONResponse(told, background=BackgroundTask(self._shown.set))

    async def status(self, request: Request) -> Response:
        """What stands around every page, as it is now."""
        room = await self.house.room(request.path_params["rig"])
        have = request.query_params.get("have")
        return JSONResponse(await self.house.work(lambda: room.status(have=have)))

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
                return {
                    "turn": room.turn,
                    "bench": self.wings.turn(room.name),
                }

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


def _wings(house: House, systems: Systems | None) -> Wing:
    from thruline.workbench.wings import Wings  # noqa: PLC0415 - heavy, as it says itself

    return Wings(house, systems)


def _wants_page(request: Request) -> bool:
    """Whether somebody follows a link, rather than a page that asks for data."""
    return "text/html" in request.headers.get("accept", "")


async def _watch(look: Callable[[], Awaitable[None]]) -> None:
    """Look again and again; what goes wrong is told once, and does not end it."""
    told = ""
    while True:
        await asyncio.sleep(WATCH_SECONDS)
        try:
            await look()
            told = ""
        except Exception as trouble:
            if told != (told := repr(trouble)):
                logging.getLogger(__name__).exception("watching went wrong, and goes on")


async def _send_turns(
    socket: WebSocket, event: asyncio.Event, turns: Callable[[], dict[str, int]]
) -> None:
    while True:
        event.clear()
        await socket.send_text(json.dumps(turns()))
        await event.wait()


async def _stumble(_request: Request, trouble: Exception) -> Response:
    """The program's own fault: the page says so, and goes on."""
    says = f"the workbench itself went wrong here ({type(trouble).__name__}); nothing was changed"
    return JSONResponse({"says": says}, 500)
