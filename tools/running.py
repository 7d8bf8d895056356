"""The workbench as a command in a process of its own, which can be killed and timed."""

import json
import os
import signal
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from http.client import HTTPException
from pathlib import Path
from typing import Any

ANSWER_SECONDS = 20


class Running:
    """`thruline workbench RIG`, ready to be asked."""

    def __init__(self, rig: Path) -> None:
        words = [sys.executable, "-m", "thruline", "workbench", str(rig), "--no-browser", "--json"]
        self.process = subprocess.Popen(
            words, stdout=subprocess.PIPE, text=True, env=os.environ.copy()
        )
        told = ""
        while not told.rstrip().endswith("}"):
            row = self.process.stdout.readline() if self.process.stdout else ""
            if not row:
                raise RuntimeError(f"the workbench did not begin: {told}")
            told += row
        self.address: str = json.loads(told)["address"].rstrip("/")
        self.name = rig.name.removesuffix(".rig.toml")

    def page(self, name: str) -> str:
        """The address of a page of the rig."""
        return f"{self.address}/rig/{self.name}/{name}"

    def act(self, deed: str, **asked: object) -> dict[str, Any] | None:
        """The answer to a deed; None when the server went away meanwhile."""
        body, origin = json.dumps(asked).encode(), {"Origin": self.address}
        return self._asked(urllib.request.Request(self.page(f"do/{deed}"), body, origin))  # noqa: S310 - our own server

    def ask(self, page: str) -> dict[str, Any] | None:
        """What a page shows; None when the server went away meanwhile."""
        return self._asked(urllib.request.Request(self.page(f"{page}.json")))  # noqa: S310 - our own server

    def _asked(self, request: urllib.request.Request) -> dict[str, Any] | None:
        try:
            with urllib.request.urlopen(request, timeout=ANSWER_SECONDS) as answer:  # noqa: S310 - as above
                told: dict[str, Any] = json.load(answer)
                return told
        except (urllib.error.URLError, HTTPException, OSError, ValueError):
            return None

    @property
    def processor_ms(self) -> float:
        """The processor time that it has taken so far; 0 where the system does not say."""
        try:
            row = Path(f"/proc/{self.process.pid}/stat").read_text()
        except OSError:
            return 0.0
        user, system = row.rpartition(")")[2].split()[11:13]
        return (int(user) + int(system)) * 1000 / os.sysconf("SC_CLK_TCK")

    def stop(self, number: int = signal.SIGKILL) -> None:
        """End it, by default as a power cut would."""
        self.process.send_signal(number)
        self.process.wait(10)
        if self.process.stdout:
            self.process.stdout.close()


@contextmanager
def running(rig: Path) -> Iterator[Running]:
    """The command for as long as the block."""
    one = Running(rig)
    try:
        yield one
    finally:
        one.stop(signal.SIGTERM)
