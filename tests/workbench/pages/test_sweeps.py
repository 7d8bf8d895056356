"""Curves dragged with pointer and keyboard."""

import pytest

MADE = "() => !document.querySelector('#undo').disabled"


@pytest.fixture
def sweeps(page, bench):
    page.goto(f"{bench.address}/rig/good/sweeps")
    page.wait_for_selector("body[data-loaded]")
    return page


def handle(page):
    return page.locator("section[aria-label=Swell] [data-end=toe]").first


def test_an_end_is_dragged(sweeps, folder):
    before = int(handle(sweeps).get_attribute("aria-valuenow"))
    handle(sweeps).scroll_into_view_if_needed()
    box = handle(sweeps).bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    sweeps.mouse.move(x, y)
    sweeps.mouse.down()
    sweeps.mouse.move(x, y + 20, steps=3)
    sweeps.mouse.up()
    sweeps.wait_for_function(MADE)
    assert int(handle(sweeps).get_attribute("aria-valuenow")) < before
    assert 'toe = "80%"' not in (folder / "good.rig.toml").read_text()


def test_an_end_is_moved_with_the_keyboard(sweeps):
    before = int(handle(sweeps).get_attribute("aria-valuenow"))
    handle(sweeps).focus()
    sweeps.keyboard.press("ArrowUp")
    sweeps.keyboard.press("ArrowUp")
    sweeps.wait_for_function(MADE)
    sweeps.wait_for_timeout(200)
    assert int(handle(sweeps).get_attribute("aria-valuenow")) == before + 2
    assert sweeps.evaluate("document.activeElement.dataset.end") == "toe"


def test_what_makes_no_sense_is_marked(sweeps, folder):
    before = (folder / "good.rig.toml").read_text()
    field = sweeps.locator("section[aria-label=Swell] input").first
    field.fill("some of them")
    field.press("Enter")
    sweeps.wait_for_selector("#said.bad:has-text('read like 3, 7, 11')")
    assert field.get_attribute("aria-invalid") == "true"
    assert (folder / "good.rig.toml").read_text() == before


def test_a_sweep_is_added_and_removed(sweeps):
    count = sweeps.locator(".sweep").count()
    sweeps.locator("#add button").click()
    sweeps.wait_for_selector(".sweep[aria-label='Sweep 1']")
    sweeps.get_by_role("button", name="Remove Sweep 1").click()
    sweeps.wait_for_selector(".sweep[aria-label='Sweep 1']", state="detached")
    assert sweeps.locator(".sweep").count() == count
