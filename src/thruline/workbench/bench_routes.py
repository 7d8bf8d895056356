"""The bench's own addresses: what is seen there, what came, what is done, captures to take away."""

from collections.abc import Callable, Sequence
from threading import RLock
from typing import TypeVar

from anyio import to_thread
from starlette.datastructures import QueryParams
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from thruline.app.audit import audit, plan_for
from thruline.app.audit_report import audit_figures, audit_paper
from thruline.app.book import made_words
from thruline.app.captured import captured_view
from thruline.app.frame import Json
from thruline.app.listen import choice_of, told_of
from thruline.app.listening import MOST_ROWS, told_json
from thruline.app.pressing import judged
from thruline.audit.capture import Capture
from thruline.audit.digits import is_number
from thruline.audit.meant import Meant
from thruline.base.errors import CannotUse
from thruline.bench.face import WallClock
from thruline.bench.port_list import PortList
from thruline.bench.systems import Systems
from thruline.bench_wiring import bench_keeping
from thruline.binding import today
from thruline.papers.as_html import paper_html
from thruline.proof.case import Case
from thruline.workbench.asked import attachment, read_asked
from thruline.workbench.bench import Bench
from thruline.workbench.bench_deeds import do
from thruline.workbench.guard import is_this_machine
from thruline.workbench.house import House

T = TypeVar("T")


class Benches:
    """The benches of the rigs of a house; all share one list of ports."""

    def __init__(self, house: House, systems: Systems, clock: WallClock) -> None:
        self._house = house
        self._clock = clock
        self._benches: dict[str, Bench] = {}
        self.ports = PortList(systems, clock, lock=RLock())

    def turn(self, name: str) -> int:
        """A number that grows with whatever happens at the bench of a rig."""
        bench = self._benches.get(name)
        return self.ports.turn + bench.turn if bench else self.ports.turn

    def look(self) -> None:
        """See what was plugged in and pulled out, while somebody has a bench open."""
        if self._benches:
            self.ports.look()

    def use(self, name: str) -> None:
        """The rig was changed: what comes is told in its words."""
        room = next((one for one in self._house.rooms if one.name == name), None)
        if room is not None and name in self._benches:
            self._benches[name].use(room.desk.state.case)

    def close(self) -> None:
        """Let go of all ports."""
        for bench in self._benches.values():
            bench.close()

    def routes(self) -> Sequence[Route]:
        """The addresses."""
        return [
            Route("/rig/{rig}/bench/state.json", self.state),
            Route("/rig/{rig}/bench/told.json", self.told),
            Route("/rig/{rig}/bench/audit.json", self.audit),
            Route("/rig/{rig}/bench/chart.json", self.chart),
            Route("/rig/{rig}/bench/report", self.report),
            Route("/rig/{rig}/bench/replay.json", self.replay),
            Route("/rig/{rig}/bench/capture/{capture}", self.capture),
            Route("/rig/{rig}/bench/do/{deed}", self.do, methods=["POST"]),
        ]

    async def _bench(self, request: Request) -> Bench:
        name = request.path_params["rig"]
        await self._house.room(name)
        if name not in self._benches:
            self._benches[name] = Bench(name, self.ports, self._clock, bench_keeping(name))
            await _work(lambda: self.ports.look(at_once=True))
        return self._benches[name]

    async def state(self, request: Request) -> Response:
        """Everything but what came."""
        bench = await self._bench(request)
        room = await self._house.room(request.path_params["rig"])
        units = tuple(room.desk.state.opened.rig.units)

        def seen() -> Json:
            store = bench.keeping.backups
            kept = {unit: list(names) for unit in units if (names := store.names(unit))}
            untold = [f"{unit}/{name}" for unit in kept for name in store.untold(unit)]
            captures = list(bench.keeping.captures.names())
            found = bench.as_json()
            return {**found, "captures": captures, "backups": kept, "untold": untold}

        seen_now = await _work(seen)
        here = is_this_machine(request)
        may_send = here or seen_now["may_telephones_send"]
        return JSONResponse({**seen_now, "is_here": here, "may_send": may_send})

    async def told(self, request: Request) -> Response:
        """What came after a number, as far as it is wanted."""
        bench, case = await self._bench(request), await self._case(request)
        asked = request.query_params
        after = int(text) if is_number(text := asked.get("after", "")) else 0
        only, hide = asked.getlist("only"), asked.getlist("hide")
        return JSONResponse(await _work(lambda: bench.told(case, after, only=only, hide=hide)))

    async def replay(self, request: Request) -> Response:
        """A capture in words: its latest rows, as far as they are wanted."""
        bench, case = await self._bench(request), await self._case(request)
        asked = request.query_params
        only, hide = asked.getlist("only"), asked.getlist("hide")

        def replayed() -> Json:
            capture = bench.keeping.captures.read(asked.get("capture", ""))
            choice = choice_of(case, capture.lines, only=only, hide=hide)
            rows = [told_json(*one) for one in enumerate(told_of(capture, case, choice), 1)]
            return {"count": len(rows), "began": capture.began, "rows": rows[-MOST_ROWS:]}

        return JSONResponse(await self._house.work(replayed))

    async def audit(self, request: Request) -> Response:
        """The answer about a capture, or about the audit that is under way."""
        bench, case = await self._bench(request), await self._case(request)
        name, at = request.query_params.get("capture", ""), request.query_params.getlist("at")

        def answered() -> Json:
            if name:
                capture, meant = _planned(bench, case, name, at)
                return {"found": judged(capture, meant, case.rig)}
            pressing = bench.pressing
            return {"found": pressing.judged() if pressing is not None else None}

        return JSONResponse(await self._house.work(answered))

    async def chart(self, request: Request) -> Response:
        """One press in the timing chart, computed and captured."""
        bench, case = await self._bench(request), await self._case(request)
        asked, number = request.query_params, request.query_params.get("preset", "")
        if not is_number(number):
            raise CannotUse(f'"{number}" is not the number of a preset')

        def drawn() -> Json:
            capture, meant = _heard(bench, case, asked)
            return captured_view(case, capture, meant, preset=int(number))

        return JSONResponse(await self._house.work(drawn))

    async def report(self, request: Request) -> Response:
        """The answer of an audit as a page to keep: it needs nothing of the workbench."""
        bench, case = await self._bench(request), await self._case(request)
        name = request.path_params["rig"]

        def made() -> str:
            capture, meant = _heard(bench, case, request.query_params)
            found = audit(capture, meant)
            paper = audit_paper(found, meant, case.rig, made=made_words(today()))
            return paper_html(paper, audit_figures(found, capture, meant=meant, case=case))

        kept = {"content-disposition": f'attachment; filename="{name}.audit.html"'}
        page = await self._house.work(made)
        return Response(page, media_type="text/html; charset=utf-8", headers=kept)

    async def capture(self, request: Request) -> Response:
        """A capture as it was written."""
        bench, name = await self._bench(request), request.path_params["capture"]
        content = await _work(lambda: bench.keeping.captures.text(name))
        shown = attachment(f"{name}.capture")
        return Response(content, media_type="text/plain; charset=utf-8", headers=shown)

    async def do(self, request: Request) -> Response:
        """A deed at the bench."""
        bench, case = await self._bench(request), await self._case(request)
        asked, deed = await read_asked(request), request.path_params["deed"]
        here = is_this_machine(request)

        def done() -> str:
            return do(bench, case, deed=deed, asked=asked, is_here=here)

        return JSONResponse({"says": await _work(done)})

    async def _case(self, request: Request) -> Case:
        room = await self._house.room(request.path_params["rig"])
        return room.desk.state.case


def _heard(bench: Bench, case: Case, asked: QueryParams) -> tuple[Capture, Meant]:
    """The capture that is asked for, or what the audit under way has heard, and its plan."""
    if asked.get("capture"):
        return _planned(bench, case, asked["capture"], asked.getlist("at"))
    if bench.pressing is None:
        raise CannotUse("no audit is under way")
    return bench.pressing.capture, bench.pressing.meant


def _planned(bench: Bench, case: Case, name: str, at: Sequence[str]) -> tuple[Capture, Meant]:
    """A capture that was kept, and the plan for its lines."""
    capture = bench.keeping.captures.read(name)
    return capture, plan_for(case, capture.lines, at=[one for one in at if one])


async def _work(what: Callable[[], T]) -> T:
    """Do something beside the event loop; panic never waits for a proof to end."""
    return await to_thread.run_sync(what)
