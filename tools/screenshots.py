"""Pictures of the workbench: `.venv/bin/python -m tools.screenshots FOLDER [PAGE ...]`.

Every page, light and dark, at a desk and on a telephone, of the demonstration as it was found.
Needs Chromium (`CHROMIUM` names another one than the system's).
"""

import os
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

from thruline.outside.samples import AS_FOUND, sample_text
from thruline.workbench.pages import PAGES
from tools.browsing import CHROMIUM, FLAGS, served

SIZES = {"desk": (1280, 860), "telephone": (390, 780)}
RIG = "as-found"
LONGEST_MS = 240_000  # the first page of the book waits for all of it


def main(words: list[str]) -> int:
    """Make them all into the folder that is named; give an exit code."""
    if not words:
        print(__doc__, file=sys.stderr)
        return 2
    folder = Path(words[0])
    folder.mkdir(parents=True, exist_ok=True)
    wanted = words[1:] or [*PAGES]
    with tempfile.TemporaryDirectory() as scratch:
        os.environ["THRULINE_WORKSHOP"] = scratch
        rigs = Path(scratch) / "rigs"
        rigs.mkdir()
        rig = rigs / f"{RIG}.rig.toml"
        rig.write_text(sample_text(AS_FOUND), encoding="utf-8")
        with served(rig) as bench, sync_playwright() as started:
            browser = started.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
            for name in wanted:
                _take(browser, bench.address, name, folder)
            browser.close()
    return 0


def _take(browser: Browser, address: str, name: str, folder: Path) -> None:
    for look in ("light", "dark"):
        for size, (width, height) in SIZES.items():
            context = browser.new_context(
                viewport={"width": width, "height": height},
                color_scheme="dark" if look == "dark" else "light",
            )
            page = context.new_page()
            page.on("pageerror", lambda trouble: print("failed:", trouble))
            page.on("console", lambda told: print(told.text) if told.type == "error" else None)
            page.goto(f"{address}/rig/{RIG}/{name}")
            page.wait_for_selector("body[data-ready]")
            page.wait_for_load_state("networkidle", timeout=LONGEST_MS)
            file = folder / f"{name}-{look}-{size}.png"
            page.screenshot(path=file)
            print(file)
            context.close()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
