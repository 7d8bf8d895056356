"""The workbench measured: from a key to the new proof, the first page, a large sheet, the weights.

    .venv/bin/python benchmarks/bench_workbench.py [--quick] [--edits 60]

The command runs in a process of its own, the pages in a real Chromium. Each row gives a target and
the ratio to it. Time on the clock counts what else the machine does; so the load is told, and the
processor time of the server for each step.
"""

import argparse
import os
import statistics
import tempfile
import time
from functools import partial
from pathlib import Path

from playwright.sync_api import Browser, Page, Request
from workbench_rigs import large_rig, wide_rig

from thruline.workbench.pages import PAGES
from tools.browsing import browser
from tools.running import Running, running

LOADED_MS = 60_000
ENTER = """() => new Promise((done) => {
  const proof = document.querySelector("#proof");
  performance.clearResourceTimings();
  const start = performance.now();
  new MutationObserver((_, self) => {
    const changed = performance.now();
    self.disconnect();
    requestAnimationFrame(() => {
      const all = performance.getEntriesByType("resource");
      const sent = all.find((one) => one.name.includes("/do/"));
      done([performance.now() - start, changed - start,
        sent ? sent.responseStart - sent.requestStart : 0]);
    });
  }).observe(proof, { childList: true });
  const enter = new KeyboardEvent("keydown", { key: "Enter", bubbles: true });
  document.activeElement.dispatchEvent(enter);
})"""
SHOWN = """new MutationObserver(() => {
  if (!document.body?.dataset.loaded || window.shownAt) return;
  window.shownAt = performance.now();
  requestAnimationFrame(() => { window.shownAt = performance.now(); });
}).observe(document, { attributes: true, attributeFilter: ["data-loaded"], subtree: true });"""
"""Notes in the page itself when all that it shows stands in a frame: to ask it may come late."""
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
  return times;
}"""


def share(times: list[float], of: float) -> float:
    """The time within which this share of the times lies."""
    return sorted(times)[min(len(times) - 1, int(len(times) * of))]


def row(what: str, found: float, target: float, unit: str = "ms") -> None:
    """One measure with its target."""
    print(f"{what:58}{found:8.1f} {unit:3} target {target:5.0f}   ratio {found / target:5.2f}")


def open_page(opened: Browser, address: str, *, sent: list[int] | None = None) -> Page:
    """A page of the workbench, shown with all that it fetches."""
    page = opened.new_page()
    page.add_init_script(SHOWN)
    if sent is not None:
        page.on("requestfinished", partial(_note_size, sent))
    page.goto(address)
    page.wait_for_selector("body[data-ready]", timeout=LOADED_MS)
    return page


def _note_size(sent: list[int], request: Request) -> None:
    sent.append(request.sizes()["responseBodySize"])


def typing(folder: Path, edits: int) -> None:
    """From Enter in a cell to the new proof on screen, in the browser's own clock."""
    rig = folder / "large.rig.toml"
    rig.write_text(large_rig(16, 128))
    with running(rig) as bench, browser() as opened:
        page = open_page(opened, bench.page("presets"))
        page.wait_for_selector("body[data-loaded]", timeout=LOADED_MS)
        times, spent = [], []
        for n in range(edits):
            cell = page.locator("#sheet tbody tr").nth(n % 128).locator("td").nth(1 + n % 15)
            cell.click()
            page.keyboard.type(f"1A, mix {(n * 7 + 3) % 128}")
            before = bench.processor_ms
            times.append(page.evaluate(ENTER))
            page.wait_for_timeout(250)
            spent.append(bench.processor_ms - before)
    screen, changed, server = ([one[at] for one in times] for at in range(3))
    print(f"Enter to new proof on screen, 16 units x 128 presets, {edits} edits")
    row("  median", statistics.median(screen), 100)
    row("  p95", share(screen, 0.95), 100)
    print(
        f"  of it until the page has changed: median {statistics.median(changed):.0f} ms;", end=" "
    )
    print(f"the server's answer: median {statistics.median(server):.0f} ms")
    print(
        f"  processor time of the server an edit, sheet included: {statistics.mean(spent):.0f} ms"
    )


def first_page(folder: Path, runs: int) -> None:
    """From the command to the page with its timing chart; the browser is open already."""
    rig = folder / "first.rig.toml"
    rig.write_text(large_rig(8, 32))
    ready, used, spent = [], [], []
    with browser() as opened:
        for _ in range(runs):
            began = time.time()
            with running(rig) as bench:
                ready.append((time.time() - began) * 1000)
                page = open_page(opened, bench.address)
                page.wait_for_selector("body[data-loaded]", timeout=LOADED_MS)
                used.append(page.evaluate("performance.timeOrigin + shownAt") - began * 1000)
                spent.append(bench.processor_ms)
                page.close()
    row("Command to first page usable, 8 units x 32 presets, best", min(used), 1000)
    print(f"  median {statistics.median(used):.0f} ms; the address is told after", end=" ")
    print(f"{min(ready):.0f} ms (best); processor time of the server {min(spent):.0f} ms")


def sheet(folder: Path) -> None:
    """A sheet of 128 x 60: to the first cell, from an arrow key to the frame, and all weights."""
    rig = folder / "wide.rig.toml"
    rig.write_text(wide_rig(60, 128))
    with running(rig) as bench, browser() as opened:
        _cells(bench, opened)
        for name in PAGES:
            sent: list[int] = []
            page = opened.new_page()
            page.on("requestfinished", partial(_note_size, sent))
            page.goto(bench.page(name))
            page.wait_for_load_state("networkidle")
            row(f"  {name}, all its {len(sent)} requests, packed", sum(sent) / 1000, 150, "kB")
            page.close()


def _cells(bench: Running, opened: Browser) -> None:
    page = open_page(opened, bench.page("presets"))
    shown = []
    for _ in range(5):
        page.reload()
        page.wait_for_selector("body[data-loaded]", timeout=LOADED_MS)
        shown.append(page.evaluate("shownAt"))
    row("128 x 60 cells shown after the page is asked for, best", min(shown), 500)
    page.locator("#sheet td").first.click()
    frames = page.evaluate(ARROWS)
    row("  an arrow key in it, with layout, p95", share(frames, 0.95), 16)


def main() -> None:
    """Measure and print."""
    words = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    words.add_argument("--quick", action="store_true", help="few edits, to see that it runs")
    words.add_argument("--edits", type=int, default=60)
    asked = words.parse_args()
    edits = 8 if asked.quick else asked.edits
    with tempfile.TemporaryDirectory() as scratch:
        os.environ["THRULINE_WORKSHOP"] = f"{scratch}/workshop"
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # as on a machine that has run it before
        os.environ["PYTHONPYCACHEPREFIX"] = f"{scratch}/bytecode"
        print(f"load of the machine: {os.getloadavg()[0]:.1f} on {os.cpu_count()} processors")
        typing(Path(scratch), edits)
        first_page(Path(scratch), 2 if asked.quick else 5)
        sheet(Path(scratch))


if __name__ == "__main__":
    main()
