"""Who may ask: this machine, and devices let in by a link that works once.

A page of some other site that is open in the same browser must not reach the rig. So the name by
which the server is called has to be one of its own, whatever changes anything has to come from one
of its own pages, and no page runs or loads anything from elsewhere.
"""

import secrets
import time
from collections.abc import Callable, Collection
from dataclasses import dataclass, field
from ipaddress import ip_address
from urllib.parse import urlsplit

from starlette.requests import HTTPConnection
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LINK_SECONDS = 600
"""How long a link for another device works."""
COOKIE = "thruline_device"
OWN_NAMES = ("127.0.0.1", "localhost", "[::1]")
SAFE = ("GET", "HEAD")
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
        token = secrets.token_urlsafe(24)
        self._links[token] = self.clock() + LINK_SECONDS
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
        shown = connection.cookies.get(COOKIE, "")
        return any(secrets.compare_digest(shown, one) for one in self._devices)

    def refusal(self, connection: HTTPConnection) -> tuple[int, str] | None:
        """Why a request is not answered, with its status; None when it is."""
        host = connection.headers.get("host", "")
        if host.rpartition(":")[0] not in self.names and host not in self.names:
            return 421, "this server is not called that; use the address that it told you"
        is_socket = connection.scope["type"] == "websocket"
        if (is_socket or connection.scope["method"] not in SAFE) and not _is_own(connection, host):
            return 403, "only the workbench's own pages may do that"
        if connection.url.path.startswith("/enter/") or self.knows(connection):
            return None
        return 401, "this device is not let in: open a new link on the workbench, under Devices"


def is_this_machine(connection: HTTPConnection) -> bool:
    """Whether a request was made on the machine that serves it."""
    client = connection.client
    try:
        return client is not None and ip_address(client.host).is_loopback
    except ValueError:
        return False


def _is_own(connection: HTTPConnection, host: str) -> bool:
    return urlsplit(connection.headers.get("origin", "")).netloc == host


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
