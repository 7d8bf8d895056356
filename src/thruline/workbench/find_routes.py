"""The record of a search as one page to take away: to read, to print, to send on."""

from collections.abc import Sequence

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from thruline.app.book import paper_book
from thruline.app.search_view import search_paper
from thruline.base.errors import CannotUse
from thruline.binding import today, typeset
from thruline.papers.as_html import paper_html
from thruline.papers.as_markdown import paper_markdown
from thruline.papers.book import Book, part_of
from thruline.papers.paper import Paper
from thruline.workbench.house import House
from thruline.workbench.printing import Worker

FORMS = ("html", "md", "pdf")


class Records:
    """The records of the searches of a house."""

    def __init__(self, house: House) -> None:
        self._house = house
        self._worker = Worker()

    def routes(self) -> Sequence[Route]:
        """The addresses."""
        return [Route("/rig/{rig}/find/record.{form}", self.record)]

    def close(self) -> None:
        """Stop printing."""
        self._worker.close()

    async def record(self, request: Request) -> Response:
        """The record of the search that is kept for a rig, as a page, as text, or to print."""
        name, form = request.path_params["rig"], request.path_params["form"]
        if form not in FORMS:
            raise CannotUse(f'there is no record as "{form}"; there are {", ".join(FORMS)}')
        room = await self._house.room(name)
        paper = await self._house.work(lambda: search_paper(room.desk, room.keeping))
        if form == "html":
            return Response(paper_html(paper), media_type="text/html; charset=utf-8")
        shown = {"content-disposition": f'attachment; filename="{name}.search.{form}"'}
        if form == "md":
            text = paper_markdown(paper)
            return Response(text, media_type="text/markdown; charset=utf-8", headers=shown)
        pdf = await self._worker.do(_printed, _book(paper))
        return Response(pdf, media_type="application/pdf", headers=shown)


def _book(paper: Paper) -> Book:
    return paper_book(part_of("search", paper), date=today())


def _printed(book: Book) -> bytes:
    return typeset(book, paper="a4")
