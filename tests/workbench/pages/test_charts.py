"""A chart made and filled in on its page."""

import tomllib

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from tests.workbench.asking import act, in_thread


@pytest.fixture
def charts(page, bench):
    page.goto(f"{bench.address}/rig/good/charts?chart=bramley-delay")
    page.wait_for_selector("body[data-loaded=bramley-delay]")
    return page


def _press(page, name):
    button = page.get_by_role("button", name=name, exact=True)
    expect(button).to_be_enabled(timeout=8000)  # a key pressed earlier would go elsewhere
    button.press("Enter")


def _until(page, is_so):
    for _ in range(160):
        if is_so():
            return
        page.wait_for_timeout(50)
    pytest.fail(f"it did not come to be so: {page.locator('#said').inner_text()}")


def test_a_chart_beside_the_rig_is_taken_away(page, bench, folder):
    page.goto(f"{bench.address}/rig/good/charts?chart=bramley-delay")
    page.wait_for_selector("body[data-loaded='bramley-delay']")
    page.get_by_role("button", name="Copy it beside the rig").click()
    page.wait_for_selector("#said:has-text('Copied.')")
    page.get_by_role("button", name="Take it away").click()
    page.locator("#ask").get_by_role("button", name="Take it away").click()
    page.wait_for_selector("#said:has-text('Taken away.')")
    assert not list((folder / "charts").iterdir())


def test_a_shipped_chart_is_copied_filled_in_undone_and_redone(charts, folder):
    assert "only read" in charts.locator("#about").inner_text()
    assert charts.locator("#facts input").count() == 0
    charts.get_by_role("button", name="Copy it beside the rig").press("Enter")
    file = folder / "charts" / "bramley-delay.chart.toml"
    _until(charts, file.is_file)
    charts.wait_for_selector("#facts input", state="attached")
    before = file.read_bytes()
    charts.locator("[data-clause=settle] > summary").press("Enter")
    field = charts.get_by_label("settle: ms", exact=True)
    field.fill("soon")
    field.press("Tab")
    charts.wait_for_selector("[data-address='settle.ms'][aria-invalid]")
    assert "not understood" in charts.locator("[id='why-settle.ms']").inner_text()
    assert file.read_bytes() == before
    field.fill("777")
    field.press("Tab")
    _until(charts, lambda: tomllib.loads(file.read_text())["settle"]["ms"] == 777)
    _press(charts, "Undo in this chart")
    _until(charts, lambda: file.read_bytes() == before)
    _press(charts, "Redo in this chart")
    _until(charts, lambda: tomllib.loads(file.read_text())["settle"]["ms"] == 777)


@pytest.mark.parametrize("look", ["light", "dark"])
def test_nothing_of_weight_is_found_where_a_chart_is_filled_in(charts, look):
    charts.emulate_media(color_scheme=look)
    _press(charts, "Copy it beside the rig")
    charts.wait_for_selector("#facts input", state="attached")
    for clause in ("settle", "socket", "size", "setting"):
        charts.locator(f"[data-clause={clause}] > summary").press("Enter")
    field = charts.get_by_label("settle: ms", exact=True)
    field.fill("soon")
    field.press("Tab")
    charts.wait_for_selector("[data-address='settle.ms'][aria-invalid]")
    charts.evaluate("() => { window.axe = undefined; }")
    found = Axe().run(charts).response["violations"]
    assert [one["id"] for one in found if one["impact"] in ("serious", "critical")] == []


def test_the_later_of_two_browsers_is_asked_before_anything_is_overwritten(charts, bench, folder):
    charts.get_by_role("button", name="Copy it beside the rig").press("Enter")
    file = folder / "charts" / "bramley-delay.chart.toml"
    _until(charts, file.is_file)
    charts.wait_for_selector("#facts input", state="attached")
    charts.locator("[data-clause=settle] > summary").press("Enter")
    charts.route("**/charts.json*", lambda route: route.abort())  # it does not hear of the other
    asked = {"chart": "bramley-delay", "address": "settle.ms", "text": "777"}
    assert in_thread(lambda: act(bench, "good", "chart-fact", **asked, chart_seen=1))[0] == 200
    charts.wait_for_selector("#said.bad")
    charts.unroute("**/charts.json*")
    field = charts.get_by_label("settle: ms", exact=True)
    field.fill("500")
    field.press("Tab")
    charts.wait_for_selector("#ask[open]:has-text('was changed meanwhile, to 777')")
    assert "ms = 777" in file.read_text()
    charts.get_by_role("button", name="Put mine in its place").click()
    _until(charts, lambda: "ms = 500" in file.read_text())
    expect(charts.locator("[data-address='settle.ms'][aria-invalid]")).to_have_count(0)


def test_a_chart_that_is_not_there_is_said_to_be_none(page, bench):
    page.goto(f"{bench.address}/rig/good/charts?chart=quince-box")
    page.wait_for_selector("body[data-loaded=none]")
    assert 'no chart "quince-box"' in page.locator("#about").inner_text()


def test_a_chart_is_begun_and_a_socket_added(charts, folder):
    charts.locator("#begin > summary").press("Enter")
    for key, text in (
        ("id", "quince-box"),
        ("maker", "Quince"),
        ("model", "Box"),
        ("kind", "fuzz"),
    ):
        charts.locator(f"#make-{key}").fill(text)
    charts.locator("#make-kind").press("Enter")
    charts.wait_for_selector("body[data-loaded=quince-box]")
    charts.locator("[data-clause=socket] > summary").press("Enter")
    charts.get_by_label("socket: new id", exact=True).fill("midi-in")
    charts.get_by_label("socket: new kind", exact=True).select_option("midi-in")
    charts.get_by_label("socket: new connector", exact=True).select_option("din5")
    charts.get_by_role("button", name="Add a socket", exact=True).press("Enter")
    file = folder / "charts" / "quince-box.chart.toml"
    _until(charts, lambda: "socket" in tomllib.loads(file.read_text()))
    held = tomllib.loads(file.read_text())
    assert held["socket"] == [{"id": "midi-in", "kind": "midi-in", "connector": "din5"}]
    _press(charts, "Go to its size")
    field = charts.locator("[data-clause=size] input").first
    expect(field).to_be_focused()
