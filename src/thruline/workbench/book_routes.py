"""The addresses of the Book page: prints that are made, their pages as pictures, the PDF itself."""

import asyncio
from collections.abc import Mapping, Sequence
from hashlib import sha256
from types import MappingProxyType

from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from thruline.app.book_parts import PARTS
from thruline.app.sheet import SHEETS
from thruline.base.errors import CannotUse
from thruline.binding import today
from thruline.papers.book_data import PAPERS
from thruline.workbench.asked import attachment, unheard
from thruline.workbench.house import House
from thruline.workbench.printing import (
    LARGE,
    SMALL,
    Printed,
    Wish,
    Worker,
    picture,
    printed,
    wish_for,
)

MOST_KEPT = 6
"""So many prints are kept, of all rigs together; one of a large rig has some 2 MB."""
SIZES: Mapping[str, float] = MappingProxyType({"small": SMALL, "large": LARGE})
"""Pictures of pages, by pixels a point."""
FOR_EVER = {"cache-control": "private, max-age=86400, immutable"}


class Books:
    """The prints of the rigs of a house."""

    def __init__(self, house: House) -> None:
        self._house = house
        self._worker = Worker()
        self._kept: dict[str, Printed] = {}
        self._one_at_a_time = asyncio.Lock()

    def routes(self) -> Sequence[Route]:
        """The addresses."""
        return [
            Route("/rig/{rig}/book/made.json", self.made),
            Route("/rig/{rig}/book/print.pdf", self.pdf),
            Route("/rig/{rig}/book/{key}/{size}/{number:int}.png", self.picture),
        ]

    def close(self) -> None:
        """Stop printing."""
        self._worker.close()

    async def made(self, request: Request) -> Response:
        """A print of the rig as it is now, made when there is none yet: its key and its pages."""
        wish = await self._wish(request)
        found = await self._printed(wish, request)
        if found is None:
            return unheard()
        pages = [
            {"width": one.width, "height": one.height, "part": one.part} for one in found.leaves
        ]
        return JSONResponse({"key": _key(wish), "pages": pages, "bytes": len(found.pdf)})

    async def pdf(self, request: Request) -> Response:
        """The same to take away."""
        wish = await self._wish(request)
        found = await self._printed(wish, request)
        if found is None:
            return unheard()
        name = f"{request.path_params['rig']}.{wish.sheet or 'book'}.pdf"
        return Response(found.pdf, media_type="application/pdf", headers=attachment(name))

    async def picture(self, request: Request) -> Response:
        """A page of a print as a picture, `small` or `large`."""
        found = self._kept.get(request.path_params["key"])
        if found is None:
            raise CannotUse("this print is not kept any more; open the Book page again")
        number = request.path_params["number"]
        if not 1 <= number <= len(found.leaves):
            raise CannotUse(f"there is no page {number}; the last is {len(found.leaves)}")
        size = request.path_params["size"]
        if size not in SIZES:
            raise CannotUse(f'there are no "{size}" pages; there are {", ".join(SIZES)}')
        shown = await self._worker.do(picture, (found.pdf, number, SIZES[size]))
        return Response(shown, media_type="image/png", headers=FOR_EVER)

    async def _wish(self, request: Request) -> Wish:
        room = await self._house.room(request.path_params["rig"])
        asked = request.query_params
        paper, sheet = asked.get("paper", "a4"), asked.get("sheet", "")
        parts = tuple(one for one in PARTS if one in asked.getlist("part"))
        for name, known in ((paper, PAPERS), (sheet or "proof", SHEETS)):
            if name not in known:
                raise CannotUse(f'there is no "{name}"; there are {", ".join(known)}')
        return wish_for(room.desk.state, paper=paper, parts=parts, sheet=sheet, date=today())

    async def _printed(self, wish: Wish, request: Request) -> Printed | None:
        """The print; None when nobody waits for it any more at the moment when it could begin."""
        key = _key(wish)
        async with self._one_at_a_time:
            if key not in self._kept:
                if await request.is_disconnected():
                    return None
                self._kept[key] = await self._worker.do(printed, wish)
                while len(self._kept) > MOST_KEPT:
                    del self._kept[next(iter(self._kept))]
        return self._kept[key]


def _key(wish: Wish) -> str:
    return sha256(repr(wish).encode()).hexdigest()[:20]
