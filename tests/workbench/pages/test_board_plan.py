"""Plans on the Board page: shown as edits, applied as they were shown, undone."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.workbench.asking import act, ask, in_thread

FILE = "found.rig.toml"


@pytest.fixture
def board(page, bench):
    page.set_default_timeout(30_000)  # a whole board is proved before and after
    page.goto(f"{bench.address}/rig/found/board")
    page.wait_for_selector("body[data-loaded]")
    return page


def plan(page, name):
    page.locator(f"[data-plan={name}] button").click()
    page.wait_for_selector("body[data-plan]")
    return page.locator("#plan")


def test_a_plan_is_shown_applied_and_undone(board, folder):
    before = (folder / FILE).read_text()
    shown = plan(board, "power")
    assert "no plan costs less" in shown.inner_text()
    assert "Never open a mains supply" in shown.locator(".caution").inner_text()
    cells = shown.locator("tbody").first.locator("tr").first.locator("td").all_inner_texts()
    assert cells[0].startswith("cable[supply.outlet-10>mod.power-in].from")
    assert (cells[1], cells[2]) == ('"supply.outlet-10"', '"supply.outlet-5"')
    assert "does not suit it" in cells[3]
    assert (folder / FILE).read_text() == before

    shown.get_by_role("button", name="Apply 2 edits").click()
    board.wait_for_selector("body[data-plan=applied]")
    after = (folder / FILE).read_text()
    assert after != before
    assert shown.locator("td").count() > 10  # the lists stay, for the work by hand
    shown.get_by_role("button", name="Undo this plan").click()
    board.wait_for_selector("body[data-plan=shown]")
    assert (folder / FILE).read_text() == before
    board.locator("#redo").click()
    board.wait_for_selector("body[data-plan=applied]")
    assert (folder / FILE).read_text() == after


def test_a_plan_is_dropped_with_the_keyboard(board, folder):
    before = (folder / FILE).read_text()
    board.locator("[data-plan=channels] input").focus()
    board.keyboard.press("Enter")
    board.wait_for_selector("body[data-plan=shown]")
    board.get_by_role("button", name="Drop it").focus()
    board.keyboard.press("Enter")
    board.wait_for_selector("#plan", state="hidden")
    assert board.evaluate("document.activeElement.textContent") == "Plan the channels"
    assert (folder / FILE).read_text() == before


def test_a_plan_of_a_rig_that_was_changed_meanwhile_cannot_be_applied(board, bench):
    shown = plan(board, "cables")
    assert "fewer cannot do" in shown.inner_text()
    seen = ask(bench, "found", "status")["revision"]
    edit = {"do": "set", "address": "rig.about", "value": "changed by somebody else"}
    assert act(bench, "found", "edit", edits=[edit], seen=seen)[0] == 200
    board.wait_for_selector("body[data-plan=past]")
    assert shown.get_by_role("button", name="Apply").count() == 0
    shown.get_by_role("button", name="Work it out again").click()
    board.wait_for_selector("body[data-plan=shown]")
    shown.get_by_role("button", name="Apply").click()
    board.wait_for_selector("body[data-plan=applied]")


def test_what_was_applied_stands_when_something_else_is_changed(board, bench):
    shown = plan(board, "channels")
    shown.get_by_role("button", name="Apply").click()
    board.wait_for_selector("body[data-plan=applied]")
    assert "thruline compare" not in shown.inner_text()
    edit = {"do": "set", "address": "rig.about", "value": "changed by somebody else"}
    assert act(bench, "found", "edit", edits=[edit], seen=1)[0] == 200
    board.wait_for_selector("#plan .state:has-text('was changed since')")
    assert "Applied: it stands" in shown.locator(".state").inner_text()
    board.locator("#undo").click()
    shown.get_by_role("button", name="Undo this plan").click()
    board.wait_for_selector("body[data-plan=shown]")
    assert act(bench, "found", "edit", edits=[edit], seen=1)[0] == 200
    board.wait_for_selector("body[data-plan=past]")


def test_the_server_refuses_it_too(bench):
    told = in_thread(lambda: ask(bench, "found", "plan", "?plan=channels"))
    status = ask(bench, "found", "status")
    assert told["revision"] == status["revision"]
    edit = {"do": "set", "address": "rig.about", "value": "changed"}
    act(bench, "found", "edit", edits=[edit], seen=status["revision"])
    asked = {"plan": "channels", "edits": told["edits"], "seen": told["revision"]}
    code, said = act(bench, "found", "plan", **asked)
    assert code == 422
    assert "have it worked out again" in said["says"]


def test_a_wish_that_cannot_be_is_a_clash_or_a_sentence(board):
    board.locator("[data-plan=channels] input").fill("delay=3 echo=3")
    shown = plan(board, "channels")
    text = shown.inner_text()
    assert "The smallest clash" in text
    assert "(delay)" in text
    assert "(echo)" in text
    assert "nothing to apply" in text
    assert shown.get_by_role("button", name="Apply").count() == 0
    board.locator("[data-plan=channels] input").fill("delay")
    board.locator("[data-plan=channels] button").click()
    board.wait_for_selector("#said.bad:has-text('one reads like delay=3')")


def test_power_is_told_in_the_drawing_and_in_a_table(board):
    assert board.locator("#power").is_hidden()
    board.get_by_label("power leads").check()
    row = board.locator("#power tr", has_text="Fiesta Modulation")
    assert "9 V DC centre negative, 100 mA, isolated" in row.inner_text()
    assert "225 %" in row.inner_text()
    assert row.get_by_role("button", name="1 finding").is_visible()
    assert board.locator(".names .feed", has_text="outlet-10").count() == 1
    assert board.locator(".length.end").count() == 0
    board.get_by_label("plugs at the ends").check()
    assert board.locator(".length.end", has_text="barrel").count() > 10


@pytest.mark.parametrize("look", ["light", "dark"])
def test_nothing_of_weight_is_found_with_a_plan_open(board, look):
    board.emulate_media(color_scheme=look)
    board.get_by_label("power leads").check()
    plan(board, "cables")
    board.evaluate("() => { window.axe = undefined; }")
    found = Axe().run(board).response["violations"]
    weighty = [
        (one["id"], one["nodes"][0]["html"][:200])
        for one in found
        if one["impact"] in ("serious", "critical")
    ]
    assert weighty == []
    board.set_viewport_size({"width": 640, "height": 800})
    assert board.evaluate("document.documentElement.scrollWidth") <= 640
