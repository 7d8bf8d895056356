"""The server is killed amid edits and started again: nothing that was accepted is lost."""

import json
import os
import signal
import subprocess
import sys
import threading
import urllib.error
import urllib.request
from http.client import HTTPException

import pytest

from thruline.document.read import read
from thruline.wiring import keeping_for


class Running:
    """The command itself, in a process of its own."""

    def __init__(self, rig, name):
        self.process = subprocess.Popen(
            [sys.executable, "-m", "thruline", "workbench", str(rig), "--no-browser", "--json"],
            stdout=subprocess.PIPE, text=True, env=os.environ.copy(),
        )  # fmt: skip
        told = ""
        while not told.rstrip().endswith("}"):
            told += self.process.stdout.readline()
        self.address = json.loads(told)["address"]
        self.base = f"{self.address}rig/{name}"

    def act(self, deed, **asked):
        """The answer; None when the server went away meanwhile."""
        body, origin = json.dumps(asked).encode(), {"Origin": self.address.rstrip("/")}
        request = urllib.request.Request(f"{self.base}/do/{deed}", body, origin)  # noqa: S310 - our own server
        try:
            with urllib.request.urlopen(request, timeout=10) as answer:  # noqa: S310 - our own server
                return json.load(answer)
        except (urllib.error.URLError, HTTPException, OSError, ValueError):
            return None

    def kill(self):
        self.process.send_signal(signal.SIGKILL)
        self.process.wait(10)
        self.process.stdout.close()


@pytest.mark.parametrize("after_s", [0.15, 0.3, 0.5])
def test_what_was_accepted_is_there_after_a_kill(folder, after_s):
    file = folder / "good.rig.toml"
    server = Running(file, "good")
    seen = server.act("edit", edits=[edit(0)], seen=1)["revision"]
    timer = threading.Timer(after_s, server.kill)
    timer.start()
    accepted = 0
    while (told := server.act("edit", edits=[edit(accepted + 1)], seen=seen)) is not None:
        accepted, seen = accepted + 1, told["revision"]
    timer.join()
    text, data = read(file.read_bytes(), file=str(file))
    assert int(data["rig"]["about"].split()[1]) in (accepted, accepted + 1)
    again = Running(file, "good")
    try:
        before = again.act("undo")
        assert before is not None
        assert read(file.read_bytes(), file="x")[0] != text
        assert again.act("redo") is not None
        assert file.read_text() == text
    finally:
        again.kill()
    assert keeping_for(file).revisions.recall().now >= accepted


def edit(value):
    return {"do": "set", "address": "rig.about", "value": f"edit {value}"}
