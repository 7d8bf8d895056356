"""The workbench under kills and under many hands: nothing that was accepted may be lost.

    .venv/bin/python benchmarks/bench_endurance.py [--quick] [--kills 500] [--seconds 60]

Kills: the server, in a process of its own, is ended by SIGKILL at a random moment while edits are
sent. Each edit changes two places of the document at once. After each kill the document must be
whole, hold what was accepted last (or the one edit that was under way), and open again.

Browsers: eight edit one rig in Chromium. Then all must show the same sheet, it must be the one in
the file, and every accepted edit must be a revision that is kept.
"""

import argparse
import asyncio
import json
import multiprocessing
import os
import random
import re
import signal
import sqlite3
import tempfile
import threading
import time
import urllib.error
import urllib.request
from collections.abc import Callable
from http.client import HTTPException
from pathlib import Path

import uvicorn
from playwright.sync_api import Page, Response
from workbench_rigs import large_rig

from thruline.app.prove import prove_rig
from thruline.desk_wiring import keeping_for
from thruline.wiring import open_file
from thruline.workbench.guard import Doors
from thruline.workbench.house import House
from thruline.workbench.serve import Wish, serve
from thruline.workbench.server import Workbench
from thruline.workshop.history import Cause
from tools.browsing import browser
from tools.running import running

ANSWER_SECONDS, BEGIN_SECONDS = 20, 60
HANDS = 8
TWO = re.compile(
    r'about = "edit (\d+)".*?\[\[preset\]\]\nnumber = 1\nname = "edit (\d+)"', re.DOTALL
)


def _serve(rig: Path, told: Callable[[str], None]) -> None:
    serve(rig, Wish(browse=False), told)


class Server:
    """The server in a process of its own, made from this one so that it begins at once."""

    def __init__(self, rig: Path) -> None:
        here, there = multiprocessing.Pipe()
        how = multiprocessing.get_context("fork")
        self.process = how.Process(target=_serve, args=(rig, there.send), daemon=True)
        self.process.start()
        if not here.poll(BEGIN_SECONDS):
            raise RuntimeError("the server did not begin")
        self.address = here.recv().rstrip("/")

    @property
    def seen(self) -> int:
        """The revision on the desk."""
        place = f"{self.address}/rig/killed/status.json"
        with urllib.request.urlopen(place, timeout=BEGIN_SECONDS) as answer:  # noqa: S310 - ours
            return int(json.load(answer)["revision"])

    def edit(self, value: int, seen: int) -> int | None:
        """Set two places; the revision on the desk then, or None when it was killed meanwhile."""
        places = ("rig.about", "preset[1].name")
        edits = [{"do": "set", "address": one, "value": f"edit {value}"} for one in places]
        body = json.dumps({"edits": edits, "seen": seen}).encode()
        place = f"{self.address}/rig/killed/do/edit"
        request = urllib.request.Request(place, body, {"Origin": self.address})  # noqa: S310 - ours
        try:
            with urllib.request.urlopen(request, timeout=ANSWER_SECONDS) as answer:  # noqa: S310 - ours
                return int(json.load(answer)["revision"])
        except (urllib.error.URLError, HTTPException, OSError, ValueError):
            return None

    def kill_after(self, seconds: float) -> threading.Timer:
        """End it as a power cut would, in a while."""
        pid = self.process.pid or 0
        timer = threading.Timer(seconds, os.kill, [pid, signal.SIGKILL])
        timer.start()
        return timer


def kills(folder: Path, count: int) -> bool:
    """Whether nothing was lost or broken."""
    rig = folder / "killed.rig.toml"
    rig.write_text(
        large_rig(3, 4).replace('name = "Large"\n', 'name = "Large"\nabout = "edit 0"\n')
    )
    rig.write_text(rig.read_text().replace('name = "Preset 1"', 'name = "edit 0"'))
    prove_rig(open_file(rig))  # what every server needs is loaded once, in this process
    bench = Workbench(House(rig), Doors())
    uvicorn.Config(bench.app()).load()
    asyncio.run(bench.wings.here())
    chance = random.Random(1)
    accepted = lost = broken = last = 0
    began = time.monotonic()
    for _ in range(count):
        server = Server(rig)
        revision = server.seen
        timer = server.kill_after(0.02 + chance.random() * 0.5)
        while (told := server.edit(last + 1, revision)) is not None:
            last, revision, accepted = last + 1, told, accepted + 1
        timer.join()
        server.process.join()
        found = TWO.search(rig.read_text())
        if found is None or found[1] != found[2] or not open_file(rig).rig.presets:
            broken += 1
            continue
        if int(found[1]) not in (last, last + 1):
            lost += 1
        last = int(found[1])
    _tell_kills(folder, count, accepted, lost=lost, broken=broken, seconds=time.monotonic() - began)
    return not lost and not broken


def _tell_kills(
    folder: Path, count: int, accepted: int, *, lost: int, broken: int, seconds: float
) -> None:
    listed = keeping_for(folder / "killed.rig.toml").revisions.listed()
    outside = sum(one.cause is Cause.OUTSIDE for one in listed)
    with sqlite3.connect(folder / "workshop" / "workshop.sqlite") as store:
        (sound,) = store.execute("PRAGMA integrity_check").fetchone()
    left = len(list(folder.glob(".*.new")))
    print(f"{count} kills during edits in {seconds:.0f} s: {accepted} edits accepted,", end=" ")
    print(f"{lost} lost, {broken} documents broken; store: {sound}")
    print(f"  {len(listed)} revisions are kept, {outside} of them made on opening again;", end=" ")
    print(f"{left} half-written files lie beside the document")


def browsers(folder: Path, seconds: int) -> bool:
    """Whether all show the same in the end, and nothing was lost."""
    rig = folder / "many.rig.toml"
    rig.write_text(large_rig(6, 24))
    chance = random.Random(2)
    with running(rig) as bench, browser() as opened:
        pages = [opened.new_context().new_page() for _ in range(HANDS)]
        accepted: list[str] = []
        for page in pages:
            page.on("response", lambda one: accepted.append(one.url) if _is_accepted(one) else None)
            page.goto(bench.page("presets"))
            page.wait_for_selector("body[data-loaded]", timeout=60_000)
        until, typed = time.monotonic() + seconds, 0
        while time.monotonic() < until:
            for page in pages:
                _type(page, chance)
                typed += 1
        sheets = _in_the_end(pages)
        before = bench.processor_ms
    return _tell_browsers(rig, typed, len(accepted), sheets=sheets, spent=before, seconds=seconds)


def _is_accepted(response: Response) -> bool:
    return "/do/" in response.url and response.status == 200


def _type(page: Page, chance: random.Random) -> None:
    if page.locator("#ask").is_visible():
        page.locator("#ask button").first.click()
    row, column = chance.randrange(24), chance.randrange(1, 6)
    page.locator("#sheet tbody tr").nth(row).locator("td").nth(column).click()
    page.keyboard.type(f"2B, mix {chance.randrange(128)}")
    page.keyboard.press("Enter")


def _cells(page: Page) -> list[str]:
    """What stands in the cells, of rows out of sight too."""
    return page.locator("#sheet td").all_text_contents()


def _in_the_end(pages: list[Page]) -> set[str]:
    """What the pages show, once they have come to rest."""
    sheets: set[str] = set()
    for _ in range(40):
        for page in pages:
            if page.locator("#ask").is_visible():
                page.locator("#ask button").first.click()
        pages[0].wait_for_timeout(500)
        last, sheets = sheets, {"\n".join(_cells(page)) for page in pages}
        if len(sheets) == 1 and sheets == last:
            break
    return sheets


def _tell_browsers(
    rig: Path, typed: int, accepted: int, *, sheets: set[str], spent: float, seconds: int
) -> bool:
    keeping = keeping_for(rig)
    listed = keeping.revisions.listed()
    is_last = keeping.revisions.text(listed[0].number) == rig.read_text()
    cells = [one for sheet in sheets for one in re.findall(r"2B, mix \d+", sheet)]
    held = re.findall(r'd\d = \{ program = "2B", mix = (\d+) \}', rig.read_text())
    is_same = len(sheets) == 1 and [one.rpartition(" ")[2] for one in cells] == held
    print(
        f"{HANDS} browsers for {seconds} s: {typed} cells typed, {accepted} edits accepted;",
        end=" ",
    )
    print(f"{len(sheets)} different sheets in the end, as the file has it: {is_same};", end=" ")
    print(f"{len(listed) - 1} revisions, the last is the file: {is_last}")
    print(f"  processor time of the server: {spent / max(1, accepted):.0f} ms an edit")
    return is_same and is_last and len(listed) - 1 >= 1


def main() -> int:
    """Do what is named; exit code 1 when anything was lost."""
    words = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    words.add_argument("--quick", action="store_true", help="a few kills and seconds")
    words.add_argument("--kills", type=int, default=500)
    words.add_argument("--seconds", type=int, default=60)
    asked = words.parse_args()
    count, seconds = (10, 5) if asked.quick else (asked.kills, asked.seconds)
    with tempfile.TemporaryDirectory() as scratch:
        os.environ["THRULINE_WORKSHOP"] = f"{scratch}/workshop"
        print(f"load of the machine: {os.getloadavg()[0]:.1f} on {os.cpu_count()} processors")
        fine = [kills(Path(scratch), count)] if count else []
        fine += [browsers(Path(scratch), seconds)] if seconds else []
    return 0 if all(fine) else 1


if __name__ == "__main__":
    raise SystemExit(main())
