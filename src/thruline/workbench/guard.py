"""Who may ask: this machine, and devices let in by a link that works once.

A page of some other site that is open in the same browser must not reach the rig. So the name by
which the server is called has to be one of its own, whatever changes anything has to come from one
of its own pages, and no page runs or loads anything from elsewhere. Nor may another site make a
browser fetch what costs this machine time, a print for example, even if it cannot read the answer.
"""

import re
import secrets
import time
from collections.abc import Callable, Collection
from dataclasses import dataclass, field
from ipaddress import ip_address

from starlette.requests import HTTPConnection
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LINK_SECONDS = 600
"""How long a link for another device works."""
COOKIE = "thruline_device"
OWN_NAMES = ("127.0.0.1", "localhost", "[::1]")
SAFE = ("GET", "HEAD")
_HOST = re.compile(r"(\[[0-9a-fA-F:.]+\]|[A-Za-z0-9.-]+)(?::\d{1,5})?", re.ASCII)
"""A server's name and port, and nothing that would change what an address made of them means."""
NOT_IN = (
    'this device is not let in: press "Let a telephone in" on the workbench and open the new link'
)
HEADERS = {
    "content-security-policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
        "connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; "
        "form-action 'self'; frame-ancestors 'none'"
    ),
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "referrer-policy": "no-referrer",
    "x-content-type-options": "nosniff",
}


@dataclass
class Doors:
    """The names of this server, the links that still work, and the devices that are in."""

    names: Collection[str] = OWN_NAMES
    clock: Callable[[], float] = time.monotonic
    _links: dict[str, float] = field(default_factory=dict)
    _devices: set[str] = field(default_factory=set)

    def new_link(self) -> str:
        """A token that lets one device in, once."""
        now, token = self.clock(), secrets.token_urlsafe(24)
        self._links = {one: until for one, until in self._links.items() if until >= now}
        self._links[token] = now + LINK_SECONDS
        return token

    def enter(self, token: str) -> str | None:
        """What the device shows from now on; None when the token is used up, old or wrong."""
        until = self._links.pop(token, 0.0)
        if until < self.clock():
            return None
        pass_ = secrets.token_urlsafe(24)
        self._devices.add(pass_)
        return pass_

    def knows(self, connection: HTTPConnection) -> bool:
        """Whether a request comes from this machine or from a device that was let in."""
        if is_this_machine(connection):
            return True
        shown = connection.cookies.get(COOKIE, "").encode()
        return any(secrets.compare_digest(shown, one.encode()) for one in self._devices)

    def refusal(self, connection: HTTPConnection) -> tuple[int, str] | None:
        """Why a request is not answered, with its status; None when it is."""
        hosts = connection.headers.getlist("host")
        if len(hosts) != 1 or _without_port(hosts[0]) not in self.names:
            return 421, "this server is not called that; use the address that it told you"
        if not _may_be_asked(connection, hosts[0]):
            return 403, "only the workbench's own pages may do that"
        # The path as it was asked for: a URL put together with the name called would be theirs.
        if connection.scope["path"].startswith("/enter/") or self.knows(connection):
            return None
        return 401, NOT_IN


def is_this_machine(connection: HTTPConnection) -> bool:
    """Whether a request was made on the machine that serves it."""
    client = connection.client
    try:
        return client is not None and ip_address(client.host).is_loopback
    except ValueError:
        return False


def _without_port(host: str) -> str:
    """The name by which the server was called; empty when it is no name with a port."""
    called = _HOST.fullmatch(host)
    return called[1] if called else ""


def _may_be_asked(connection: HTTPConnection, host: str) -> bool:
    """Whether it is asked for by a page of the workbench, or by nobody's page at all."""
    if connection.scope["type"] == "websocket" or connection.scope["method"] not in SAFE:
        return connection.headers.getlist("origin") == [f"{_scheme(connection)}://{host}"]
    if connection.headers.get("sec-fetch-site", "none") in ("none", "same-origin"):
        return True
    return connection.headers.get("sec-fetch-dest") == "document"  # a link to it, followed


def _scheme(connection: HTTPConnection) -> str:
    return "https" if connection.scope["scheme"] in ("https", "wss") else "http"


class Guard:
    """Refuses what may not be asked, and sets the headers of answers."""

    def __init__(self, app: ASGIApp, doors: Doors) -> None:
        self._app = app
        self._doors = doors

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through, or answer it with a refusal."""
        if scope["type"] not in ("http", "websocket"):
            await self._app(scope, receive, send)
            return
        refused = self._doors.refusal(HTTPConnection(scope))
        if refused is None:
            await self._app(scope, receive, _with_headers(send))
        elif scope["type"] == "websocket":
            await send({"type": "websocket.close", "code": 1008})
        else:
            status, says = refused
            answer = PlainTextResponse(f"{says}\n", status)
            await answer(scope, receive, _with_headers(send))


def _with_headers(send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            added = [(name.encode(), value.encode()) for name, value in HEADERS.items()]
            message["headers"] = [*message["headers"], *added]
        await send(message)

    return sending
