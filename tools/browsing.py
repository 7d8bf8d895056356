"""A workbench that runs in this process, and a real browser on it."""

import os
import shutil
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import uvicorn
from playwright.sync_api import Browser, sync_playwright

from thruline.workbench.answering import config_for
from thruline.workbench.guard import Doors
from thruline.workbench.house import House
from thruline.workbench.server import Workbench

CHROMIUM = os.environ.get("CHROMIUM", "/usr/bin/chromium")
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking"]


def has_browser() -> bool:
    """Whether there is a Chromium on this machine."""
    return shutil.which(CHROMIUM) is not None


class Served:
    """A workbench on a port of this machine."""

    def __init__(self, place: Path, port: int = 0) -> None:
        self.bench = Workbench(House(place), Doors())
        self._socket = socket.create_server(("127.0.0.1", port), reuse_port=False)
        self.port = self._socket.getsockname()[1]
        self.address = f"http://127.0.0.1:{self.port}"
        config = config_for(self.bench)
        config.timeout_graceful_shutdown = 0
        self._server = uvicorn.Server(config)
        self._thread = threading.Thread(
            target=self._server.run, kwargs={"sockets": [self._socket]}, daemon=True
        )
        self._thread.start()
        while not self._server.started:
            time.sleep(0.01)

    def stop(self) -> None:
        """Stop it, as a person who closes it would."""
        self._server.should_exit = True
        self._thread.join(10)
        self._socket.close()


@contextmanager
def served(place: Path, port: int = 0) -> Iterator[Served]:
    """A workbench for as long as the block."""
    one = Served(place, port)
    try:
        yield one
    finally:
        one.stop()


@contextmanager
def browser() -> Iterator[Browser]:
    """A browser without a window."""
    with sync_playwright() as started:
        opened = started.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield opened
        opened.close()
