"""The workbench running: an open port, a server on it, a browser that looks at it."""

import asyncio
import contextlib
import errno
import socket
import webbrowser
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import uvicorn

from thruline.base.errors import CannotUse, WorldFailed
from thruline.wiring import open_file
from thruline.workbench.devices import own_address
from thruline.workbench.guard import OWN_NAMES, Doors
from thruline.workbench.house import House
from thruline.workbench.server import Workbench

LOOPBACK = "127.0.0.1"
EVERYWHERE = "0.0.0.0"  # noqa: S104 - only when the person asks to share


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """How the workbench is served: on which port (0: any that is free), to whom, how long."""

    port: int = 0
    share: bool = False
    browse: bool = True
    seconds: float | None = None
    """After how long it stops by itself."""


def serve(place: Path, wish: Wish, ready: Callable[[str], None]) -> None:
    """Serve until stopped; `ready` is told the address.

    Raises CannotUse or WorldFailed when it cannot begin.
    """
    bench = Workbench(_house(place), Doors())
    with _listening(EVERYWHERE if wish.share else LOOPBACK, wish.port) as opened:
        port = opened.getsockname()[1]
        here = f"http://{LOOPBACK}:{port}/"
        if wish.share:
            name = own_address()
            bench.doors.names = (*OWN_NAMES, name)
            bench.address = f"http://{name}:{port}"

        def began() -> None:
            ready(here)
            if wish.browse:
                webbrowser.open(here)

        with contextlib.suppress(KeyboardInterrupt):
            asyncio.run(_Announcing(bench, began).serve_for(opened, wish.seconds))


def folder_of(place: Path) -> Path:
    """The folder of the rigs that are served."""
    return (place if place.is_dir() else place.parent).resolve()


def _house(place: Path) -> House:
    if not place.exists():
        raise CannotUse(f"{place} is not there; name a rig document or a folder of them")
    house = House(place)
    if not house.names:
        raise CannotUse(
            f"there is no rig in {place}; `thruline new` writes one to start from, "
            "`thruline demo` the demonstration"
        )
    if place.is_file():
        open_file(place)  # what is wrong with it is said here, not on a page
    return house


def config_for(bench: Workbench) -> uvicorn.Config:
    """How a workbench is served."""
    return uvicorn.Config(
        bench.app(),
        log_level="critical",
        ws_max_size=4096,
        timeout_graceful_shutdown=1,
        proxy_headers=False,  # who asks is who is connected, whatever a request says of it
        server_header=False,
    )


class _Announcing(uvicorn.Server):
    """A server that says when it is ready."""

    def __init__(self, bench: Workbench, began: Callable[[], None]) -> None:
        super().__init__(config_for(bench))
        self._began = began

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Begin, then say so."""
        await super().startup(sockets)
        self._began()

    async def serve_for(self, opened: socket.socket, seconds: float | None) -> None:
        """Serve until stopped, or for so long."""
        if seconds is not None:
            asyncio.get_running_loop().call_later(seconds, self._stop)
        await self.serve([opened])

    def _stop(self) -> None:
        self.should_exit = True


@contextlib.contextmanager
def _listening(host: str, port: int) -> Iterator[socket.socket]:
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as opened:
        opened.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            opened.bind((host, port))
        except OSError as trouble:
            if trouble.errno == errno.EADDRINUSE:
                raise CannotUse(
                    f"port {port} is in use; another workbench may be running. "
                    "Name another one with --port"
                ) from None
            raise WorldFailed(f"port {port} cannot be opened: {trouble.strerror}") from trouble
        yield opened
