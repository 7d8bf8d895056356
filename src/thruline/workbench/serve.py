"""The workbench begun: an open port that browsers can come to, and then all that answers them.

To load what answers takes longer than anything before the first page, except a browser that starts.
So the port is opened and the browser called first, and what it asks waits for the answer.
"""

import contextlib
import errno
import socket
import threading
import webbrowser
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from thruline.base.errors import CannotUse, WorldFailed
from thruline.wiring import open_file, refuse_book
from thruline.workbench.rigs import names_of

LOOPBACK = "127.0.0.1"
EVERYWHERE = "0.0.0.0"  # noqa: S104 - only when the person asks to share
WAITING = 128
"""How many may wait until they are answered."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """How the workbench is served: on which port (0: any that is free), to whom, how long."""

    port: int = 0
    share: bool = False
    browse: bool = True
    seconds: float | None = None
    """After how long it stops by itself."""


def serve(place: Path, wish: Wish, ready: Callable[[str], None]) -> None:
    """Serve until stopped; `ready` is told the address, which is answered from then on.

    Raises CannotUse or WorldFailed when it cannot begin.
    """
    _check(place)
    with _listening(EVERYWHERE if wish.share else LOOPBACK, wish.port) as opened:
        here = f"http://{LOOPBACK}:{opened.getsockname()[1]}/"
        ready(here)
        if wish.browse:
            # Some browsers are waited for until they have started: that is nobody else's time.
            threading.Thread(target=webbrowser.open, args=(here,), daemon=True).start()
        with contextlib.suppress(KeyboardInterrupt):
            from thruline.workbench.answering import answer_at  # noqa: PLC0415 - heavy, as said above

            answer_at(opened, place, share=wish.share, seconds=wish.seconds)


def folder_of(place: Path) -> Path:
    """The folder of the rigs that are served."""
    return (place if place.is_dir() else place.parent).resolve()


def _check(place: Path) -> None:
    """Say on the spot, and not on a page, what is wrong with a rig or a folder."""
    if not place.exists():
        raise CannotUse(f"{place} is not there; name a rig document or a folder of them")
    names_of(place)
    if place.is_file():
        refuse_book(place)
        open_file(place)


@contextlib.contextmanager
def _listening(host: str, port: int) -> Iterator[socket.socket]:
    # Named in full, or asyncio would not see that it is TCP, and each answer in two pieces would
    # wait 40 ms until the browser acknowledges the first.
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP) as opened:
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
        opened.listen(WAITING)
        yield opened
