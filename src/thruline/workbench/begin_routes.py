"""A new rig: what it can be begun with, and its document."""

from collections.abc import Sequence

from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from thruline.app.bare_rig import begun, controllers, file_for
from thruline.app.frame import Json
from thruline.base.errors import CannotUse
from thruline.wiring import first_board_text, shelves_for, write_rig
from thruline.workbench.asked import read_asked, wanted
from thruline.workbench.house import House
from thruline.workbench.rigs import name_of


class Beginnings:
    """New rigs for a house."""

    def __init__(self, house: House) -> None:
        self._house = house

    def routes(self) -> Sequence[Route]:
        """The addresses."""
        return [
            Route("/controllers.json", self.controllers),
            Route("/begin", self.begin, methods=["POST"]),
        ]

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
