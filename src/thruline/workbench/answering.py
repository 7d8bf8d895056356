"""What answers at the port of the workbench: a server with all of its pages."""

import asyncio
import socket
import sys
from pathlib import Path

import uvicorn

from thruline.workbench.devices import own_address
from thruline.workbench.guard import OWN_NAMES, Doors
from thruline.workbench.house import House
from thruline.workbench.server import Workbench

TURN_SECONDS = 0.0005
"""How long whatever is worked out may keep the processor from who answers: a page is a dozen small
requests, and each of them takes several turns."""


def answer_at(opened: socket.socket, place: Path, *, share: bool, seconds: float | None) -> None:
    """Answer what comes in at an open port about the rigs of a place, until stopped.

    Others than this machine are answered where it is to `share`. It stops by itself after so many
    `seconds`. Raises WorldFailed when this machine has no address for others.
    """
    bench = Workbench(House(place), Doors())
    if share:
        name = own_address()
        bench.doors.names = (*OWN_NAMES, name)
        bench.address = f"http://{name}:{opened.getsockname()[1]}"
    sys.setswitchinterval(TURN_SECONDS)
    asyncio.run(_serve_for(uvicorn.Server(config_for(bench)), opened, seconds))


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


async def _serve_for(server: uvicorn.Server, opened: socket.socket, seconds: float | None) -> None:
    if seconds is not None:
        asyncio.get_running_loop().call_later(seconds, _stop, server)
    await server.serve([opened])


def _stop(server: uvicorn.Server) -> None:
    server.should_exit = True
