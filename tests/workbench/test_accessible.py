"""What a checker of accessibility finds on every page: nothing of weight."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from thruline.workbench.pages import PAGES

A_BOOK_MS = 60000
"""A book is printed before its page is at rest."""


@pytest.mark.parametrize("name", PAGES)
@pytest.mark.parametrize("look", ["light", "dark"])
def test_nothing_of_weight_is_found(page, bench, name, look):
    page.emulate_media(color_scheme=look)
    page.goto(f"{bench.address}/rig/found/{name}")
    page.wait_for_selector("body[data-ready]")
    page.wait_for_load_state("networkidle", timeout=A_BOOK_MS)
    page.evaluate("() => { window.axe = undefined; }")
    found = Axe().run(page).response["violations"]
    weighty = [
        (one["id"], one["nodes"][0]["html"][:200])
        for one in found
        if one["impact"] in ("serious", "critical")
    ]
    assert weighty == []


@pytest.mark.parametrize("name", PAGES)
def test_nothing_is_wider_than_the_window(page, bench, name):
    page.set_viewport_size({"width": 640, "height": 800})  # 1280 pixels at 200 %
    page.goto(f"{bench.address}/rig/found/{name}")
    page.wait_for_selector("body[data-ready]")
    page.wait_for_load_state("networkidle", timeout=A_BOOK_MS)
    assert page.evaluate("document.documentElement.scrollWidth") <= 640
