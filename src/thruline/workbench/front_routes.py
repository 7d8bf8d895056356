"""The front: the rigs of the folder to choose from, and a new one to begin."""

from collections.abc import Sequence
from typing import Protocol

from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from thruline.app.bare_rig import begun, controllers, file_for
from thruline.app.frame import Json
from thruline.base.errors import CannotUse
from thruline.wiring import first_board_text, shelves_for, write_rig
from thruline.workbench.asked import read_asked, wanted
from thruline.workbench.house import House
from thruline.workbench.rigs import name_of


class Fill(Protocol):
    """Fills a template."""

    def __call__(self, template: str, /, **facts: object) -> Response:
        """The page."""
        ...


class Front:
    """The way into a house."""

    def __init__(self, house: House, fill: Fill) -> None:
        self._house = house
        self._fill = fill

    def routes(self) -> Sequence[Route]:
        """The addresses."""
        return [
            Route("/", self.first),
            Route("/rigs", self.front),
            Route("/controllers.json", self.controllers),
            Route("/begin", self.begin, methods=["POST"]),
        ]

    async def first(self, _request: Request) -> Response:
        """The only rig at once, or the rigs to choose from."""
        names = await self._house.work(lambda: self._house.names)
        return RedirectResponse(f"/rig/{names[0]}/" if len(names) == 1 else "/rigs")

    async def front(self, _request: Request) -> Response:
        """The rigs to choose from, and a new one to begin; of a single document, the rig."""
        if self._house.is_one:
            return RedirectResponse("/")
        names = await self._house.work(lambda: self._house.names)
        folder = self._house.folder.resolve().name
        return self._fill("front.html", names=names, folder=folder, page=None)

    async def controllers(self, _request: Request) -> Response:
        """The foot controllers that a rig can be begun with."""
        return JSONResponse({"controllers": await self._house.work(self._controllers)})

    def _controllers(self) -> list[Json]:
        return controllers(shelves_for(self._house.folder))

    async def begin(self, request: Request) -> Response:
        """A new rig; where it is then."""
        asked = await read_asked(request)
        name, controller = wanted(asked, "name", str), wanted(asked, "controller", str)
        whole = wanted(asked, "sample", bool)
        made = await self._house.work(lambda: self._begin(name, controller, whole=whole))
        return JSONResponse({"place": f"/rig/{made}/units"})

    def _begin(self, name: str, controller: str, *, whole: bool) -> str:
        if self._house.is_one:
            raise CannotUse("this workbench was started for one rig; start it for a folder")
        sample = first_board_text() if whole else None
        shelves = shelves_for(self._house.folder)
        file = self._house.folder / file_for(name)
        write_rig(file, begun(name, controller, shelves=shelves, sample=sample))
        return name_of(file)
