"""The workbench measured: from a key to the new proof, large sheets, kills, several browsers.

    .venv/bin/python benchmarks/bench_workbench.py [typing] [sheet] [kills=500] [browsers=60]

Without words: typing and sheet, 40 kills, and browsers for 10 seconds.
"""

import json
import os
import random
import signal
import statistics
import subprocess
import sys
import tempfile
import threading
import time
import urllib.error
import urllib.request
from functools import partial
from http.client import HTTPException
from pathlib import Path

from playwright.sync_api import Request

from tools.browsing import browser, served

HEAD = 'format = 1\n[rig]\nname = "Large"\ncontroller = "feet"\n'


ARROWS = """async () => {
  const times = [];
  for (let n = 0; n < 60; n += 1) {
    const start = performance.now();
    const key = n % 2 ? "ArrowDown" : "ArrowRight";
    document.activeElement.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true }));
    document.activeElement.getBoundingClientRect();
    times.push(performance.now() - start);
    await new Promise(requestAnimationFrame);
  }
  return times.sort((a, b) => a - b);
}"""


def large_rig(units: int, presets: int) -> str:
    """A line of delays behind a foot controller."""
    rows = [HEAD, '[[unit]]\nid = "feet"\nchart = "braeburn-six"\n']
    for n in range(1, units):
        rows.append(
            f'[[unit]]\nid = "d{n}"\nchart = "bramley-delay"\nchannel = {(n - 1) % 16 + 1}\n'
        )
        rows.append('[unit.settings]\nmidi-out = "thru"\n')
        before = "feet.midi-out-1" if n == 1 else f"d{n - 1}.midi-out"
        rows.append(f'[[cable]]\nfrom = "{before}"\nto = "d{n}.midi-in"\nends = "din5/din5"\n')
    for number in range(1, presets + 1):
        rows.append(f'[[preset]]\nnumber = {number}\nname = "Preset {number}"\n')
        rows += [
            f'd{n} = {{ program = "1A", mix = {(n + number) % 128} }}\n' for n in range(1, units)
        ]
    return "".join(rows)


def typing(folder: Path) -> None:
    """From Enter in a cell to the new proof on screen, in the browser's own clock."""
    rig = folder / "large.rig.toml"
    rig.write_text(large_rig(16, 128))
    with served(rig) as bench, browser() as opened:
        page = opened.new_page()
        page.goto(f"{bench.address}/rig/large/presets")
        page.wait_for_selector("body[data-loaded]", timeout=120_000)
        times = []
        for n in range(40):
            page.locator("#sheet tbody tr").nth(n).locator("td").nth(1 + n % 15).click()
            page.keyboard.type(f"1A, mix {(n * 7 + 3) % 128}")
            times.append(
                page.evaluate(
                    """() => new Promise((done) => {
                      const proof = document.querySelector("#proof");
                      const start = performance.now();
                      new MutationObserver((_, self) => {
                        self.disconnect();
                        requestAnimationFrame(() => done(performance.now() - start));
                      }).observe(proof, { childList: true });
                      document.activeElement.dispatchEvent(
                        new KeyboardEvent("keydown", { key: "Enter", bubbles: true }));
                    })"""
                )
            )
            page.wait_for_timeout(400)
        times.sort()
        p95 = times[int(len(times) * 0.95)]
        print("Enter to new proof on screen, 16 units x 128 presets:", end=" ")
        print(f"median {statistics.median(times):.0f} ms, p95 {p95:.0f} ms")


def sheet(folder: Path) -> None:
    """A sheet of 128 x 60: to the first cell, and from an arrow key to the frame."""
    rig = folder / "wide.rig.toml"
    units = "".join(f'[[unit]]\nid = "u{n}"\nchart = "bramley-delay"\n' for n in range(60))
    presets = "".join(f'[[preset]]\nnumber = {n}\nname = "P{n}"\n' for n in range(1, 129))
    rig.write_text(HEAD + '[[unit]]\nid = "feet"\nchart = "braeburn-six"\n' + units + presets)
    with served(rig) as bench, browser() as opened:
        page = opened.new_page()
        page.goto(f"{bench.address}/rig/wide/presets")
        page.wait_for_selector("body[data-loaded]", timeout=120_000)
        page.reload()
        page.wait_for_selector("body[data-loaded]")
        shown = page.evaluate("performance.now()")
        page.locator("#sheet td").first.click()
        frames = page.evaluate(ARROWS)
        print(f"128 x 60 cells shown {shown:.0f} ms after navigation;", end=" ")
        print(f"an arrow key takes {frames[57]:.1f} ms (p95)")
        for name in ("line", "presets", "units", "sweeps", "board", "stage"):
            sent: list[int] = []
            other = opened.new_page()
            other.on("requestfinished", partial(_note_size, sent))
            other.goto(f"{bench.address}/rig/wide/{name}")
            other.wait_for_load_state("networkidle")
            print(f"  {name}: {sum(sent) / 1000:.0f} kB in {len(sent)} requests")
            other.close()


def _note_size(sent: list[int], request: Request) -> None:
    sent.append(request.sizes()["responseBodySize"])


def post(address: str, deed: str, asked: dict[str, object]) -> dict[str, object] | None:
    """The answer to a deed; None when the server was killed meanwhile."""
    request = urllib.request.Request(  # noqa: S310 - our own server
        f"{address}rig/killed/do/{deed}",
        json.dumps(asked).encode(),
        {"Origin": address.rstrip("/")},
    )
    try:
        with urllib.request.urlopen(request, timeout=10) as answer:  # noqa: S310 - our own server
            return json.load(answer)
    except (urllib.error.URLError, HTTPException, OSError, ValueError):
        return None


def kills(folder: Path, count: int) -> None:
    """The server is killed amid edits; what it accepted must be in the file and in its history."""
    rig = folder / "killed.rig.toml"
    rig.write_text(large_rig(3, 4))
    chance = random.Random(1)
    accepted = lost = 0
    last = 0
    for _ in range(count):
        command = [
            sys.executable,
            "-m",
            "thruline",
            "workbench",
            str(rig),
            "--no-browser",
            "--json",
        ]
        with subprocess.Popen(  # noqa: S603 - our own command
            command, stdout=subprocess.PIPE, text=True
        ) as server:
            text = ""
            while not text.rstrip().endswith("}"):
                text += server.stdout.readline()
            address = json.loads(text)["address"]
            timer = threading.Timer(
                0.25 + chance.random() * 0.4, server.send_signal, [signal.SIGKILL]
            )
            timer.start()
            value = last
            while True:
                value += 1
                edit = {"do": "set", "address": "rig.about", "value": f"edit {value}"}
                told = post(address, "edit", {"edits": [edit], "seen": seen_of(address)})
                if told is None:
                    break
                last = value
                accepted += 1
            timer.join()
        found = rig.read_text().partition('about = "edit ')[2].partition('"')[0]
        if accepted and int(found or 0) not in (last, last + 1):
            lost += 1
        last = int(found or 0)
    print(f"{count} kills during edits: {accepted} edits accepted, {lost} lost")


def seen_of(address: str) -> int:
    """The revision on the desk."""
    try:
        place = f"{address}rig/killed/status.json"
        with urllib.request.urlopen(place, timeout=10) as answer:  # noqa: S310 - our own server
            return json.load(answer)["revision"]
    except (urllib.error.URLError, HTTPException, OSError, ValueError):
        return 1


def browsers(folder: Path, seconds: int) -> None:
    """Eight browsers edit for a while; in the end all show the same."""
    rig = folder / "many.rig.toml"
    rig.write_text(large_rig(6, 24))
    with served(rig) as bench, browser() as opened:
        pages = [opened.new_context().new_page() for _ in range(8)]
        for page in pages:
            page.goto(f"{bench.address}/rig/many/presets")
            page.wait_for_selector("body[data-loaded]")
        chance = random.Random(2)
        end, count = time.monotonic() + seconds, 0
        while time.monotonic() < end:
            for page in pages:
                row, column = chance.randrange(24), chance.randrange(1, 6)
                page.locator("#sheet tbody tr").nth(row).locator("td").nth(column).click()
                page.keyboard.type(f"2B, mix {chance.randrange(128)}")
                page.keyboard.press("Enter")
                if page.locator("#ask").is_visible():
                    page.locator("#ask button").first.click()
                count += 1
        time.sleep(3)
        sheets = {page.locator("#sheet tbody").inner_text().replace(" ◆", "") for page in pages}
        print(
            f"8 browsers, {count} edits in {seconds} s: {len(sheets)} different sheets in the end"
        )


def main(words: list[str]) -> None:
    """Measure what is named."""
    chosen = dict(word.partition("=")[::2] for word in words)
    chosen = chosen or {"typing": "", "sheet": "", "kills": "40", "browsers": "10"}
    with tempfile.TemporaryDirectory() as scratch:
        os.environ["THRULINE_WORKSHOP"] = f"{scratch}/workshop"
        folder = Path(scratch)
        if "typing" in chosen:
            typing(folder)
        if "sheet" in chosen:
            sheet(folder)
        if "kills" in chosen:
            kills(folder, int(chosen["kills"] or 40))
        if "browsers" in chosen:
            browsers(folder, int(chosen["browsers"] or 10))


if __name__ == "__main__":
    main(sys.argv[1:])
