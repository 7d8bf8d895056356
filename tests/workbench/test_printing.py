"""Prints made beside the workbench."""

import asyncio
import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.opening import open_text, with_head
from thruline.app.mend import state_of
from thruline.base.errors import WorldFailed
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.workbench.printing import SMALL, Worker, picture, printed, wish_for

TEXT = with_head(board(DELAY, TO_DELAY, a_preset(1, "One", 'delay = "11B"')).rig)


def wish(**more):
    return wish_for(state_of(open_text(TEXT)), **{"paper": "a4", "date": "1 May 2026", **more})


def test_a_print_is_made_elsewhere_as_here():
    async def work():
        worker = Worker()
        try:
            there = await worker.do(printed, wish(sheet="programming"))
            shown = await worker.do(picture, (there.pdf, 1, SMALL))
        finally:
            worker.close()
        return there, shown

    there, shown = asyncio.run(work())
    assert there == printed(wish(sheet="programming"))
    assert shown == picture((there.pdf, 1, SMALL))


def test_chosen_parts_only():
    parts = {one.part for one in printed(wish(parts=("power",))).leaves}
    assert parts - {"", "Contents"} == {"Power plan"}


def test_a_process_that_ended_is_begun_again():
    async def work():
        worker = Worker()
        try:
            with pytest.raises(WorldFailed, match="broken off"):
                await worker.do(os._exit, 1)
            return await worker.do(abs, -2)
        finally:
            worker.close()

    assert asyncio.run(work()) == 2


KILLED = """
import asyncio, os, signal, time
from thruline.workbench.printing import Worker

async def work():
    worker = Worker()
    print(await worker.do(os.path.realpath, "/proc/self"), flush=True)
    asyncio.ensure_future(worker.do(time.sleep, 120))
    await asyncio.sleep(0.5)
    os.kill(os.getpid(), signal.SIGKILL)

if __name__ == "__main__":
    asyncio.run(work())
"""


@pytest.mark.skipif(sys.platform != "linux", reason="processes are looked up in /proc")
def test_no_process_is_left_when_the_workbench_is_killed(tmp_path):
    script = tmp_path / "killed.py"
    script.write_text(KILLED)
    done = subprocess.run(
        [sys.executable, script], capture_output=True, text=True, check=False, timeout=60
    )
    worker = Path(done.stdout.strip())
    assert worker.name.isdigit(), done.stderr
    deadline = time.monotonic() + 20
    while worker.exists():
        assert time.monotonic() < deadline, f"{worker} goes on"
        time.sleep(0.05)
