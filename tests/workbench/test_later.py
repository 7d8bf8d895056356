import asyncio
import threading

from starlette.applications import Starlette
from starlette.responses import PlainTextResponse
from starlette.routing import Route

from thruline.workbench.later import Later


class Annexe:
    def routes(self):
        return [Route("/annexe", lambda _: PlainTextResponse("here"))]

    def turn(self, name):
        return len(name)

    async def look(self): ...

    async def follow(self): ...

    async def close(self): ...


def house(load):
    app = Starlette(routes=[Route("/", lambda _: PlainTextResponse("hall"))])
    app.router.default = later = Later(load)
    return app, later


def ask(app, place):
    """Status and text of the answer."""
    told = []

    async def receive():
        return {"type": "http.request", "body": b"", "more_body": False}

    async def send(message):
        told.append(message)

    scope = {
        "type": "http", "method": "GET", "path": place, "raw_path": place.encode(),
        "root_path": "", "query_string": b"", "headers": [], "scheme": "http",
        "server": ("127.0.0.1", 80), "client": ("127.0.0.1", 1), "http_version": "1.1",
    }  # fmt: skip
    asyncio.run(app(scope, receive, send))
    return told[0]["status"], b"".join(one.get("body", b"") for one in told).decode()


def test_what_is_asked_for_behind_the_hall_is_loaded_once():
    loads = []
    app, later = house(lambda: loads.append(1) or Annexe())
    assert ask(app, "/") == (200, "hall")
    assert later.loaded is None
    assert later.turn("x") == 0
    assert [ask(app, "/annexe") for _ in range(2)] == [(200, "here")] * 2
    assert loads == [1]
    assert later.turn("abc") == 3


def test_what_is_nowhere_is_told_as_such():
    assert ask(house(Annexe)[0], "/cellar")[0] == 404


def test_who_comes_while_it_is_loaded_waits_for_the_same():
    begun, go_on, loads = threading.Event(), threading.Event(), []

    def load():
        loads.append(1)
        begun.set()
        assert go_on.wait(10)
        return Annexe()

    async def both():
        later = Later(load)
        asking = [asyncio.create_task(later.here()) for _ in range(2)]
        await asyncio.to_thread(begun.wait, 10)
        go_on.set()
        return await asyncio.gather(*asking)

    first, second = asyncio.run(both())
    assert first is second
    assert loads == [1]
