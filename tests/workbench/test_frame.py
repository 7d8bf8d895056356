"""What stands around every page, in a real browser."""

import re

from tests.workbench.asking import act, request
from tools.browsing import served

FIRST_CARD = "#findings .card"


def opened(page, bench, rig="found", name="line"):
    page.goto(f"{bench.address}/rig/{rig}/{name}")
    page.wait_for_selector("body[data-ready]")
    return page


def test_a_mend_button_mends_and_undo_takes_it_back(page, bench, folder):
    file = folder / "found.rig.toml"
    before = file.read_text()
    opened(page, bench)
    says = page.locator("#proof").inner_text()
    page.locator(".mend").first.click()
    page.wait_for_selector("#said:has-text('Gone:')")
    assert page.locator("#proof").inner_text() != says
    assert file.read_text() != before
    page.keyboard.press("Control+z")
    page.wait_for_selector("#said:has-text('Undone.')")
    assert file.read_text() == before
    assert page.locator("#proof strong").inner_text() == says.split(" · 24")[0]
    page.locator("#redo").click()
    page.wait_for_selector("#said:has-text('Done again.')")
    assert file.read_text() != before


def test_a_rig_without_findings_is_told_with_what_it_does_not_describe(page, bench, folder):
    page.goto(f"{bench.address}/rig/good/line")
    page.wait_for_selector("body[data-ready]")
    whole = page.locator("#findings > p").first.inner_text()
    assert whole.startswith("✓ Proved: no faults, no risks; 24 presets, 552 changes")
    assert page.locator("#proof.proved").count() == 1
    rig = 'format = 1\n[rig]\nname = "Little"\ncontroller = "feet"\n'
    feet = '[[unit]]\nid = "feet"\nchart = "braeburn-six"\n'
    (folder / "little.rig.toml").write_text(rig + feet)
    page.goto(f"{bench.address}/rig/little/line")
    page.wait_for_selector("body[data-ready]")
    assert "power and sound are not described" in page.locator("#findings").inner_text()


def test_two_tabs_follow_each_other_and_the_file(page, bench, context, folder):
    opened(page, bench, "good")
    other = opened(context.new_page(), bench, "good")
    file = folder / "good.rig.toml"
    file.write_text(
        re.sub(r'(?m)^name = "[^"]*"', 'name = "Renamed rig"', file.read_text(), count=1)
    )
    for one in (page, other):
        one.wait_for_selector(".rig:has-text('Renamed rig')")
    other.locator("#undo").click()
    page.wait_for_selector(".rig:not(:has-text('Renamed rig'))")


def test_a_broken_file_is_told_and_put_back_only_when_asked(page, bench, folder):
    opened(page, bench, "good")
    file = folder / "good.rig.toml"
    good = file.read_text()
    file.write_text("[[preset")
    page.wait_for_selector("#broken:visible")
    assert file.read_text() == "[[preset"
    page.locator("#broken button").click()
    page.wait_for_selector("#broken", state="hidden")
    assert file.read_text() == good


def test_a_server_that_went_away_is_told_and_come_back_to(page, bench, folder):
    opened(page, bench, "good")
    bench.stop()
    page.wait_for_selector("#away:visible")
    with served(folder, bench.port):
        page.wait_for_selector("#away", state="hidden")
        assert page.locator("#proof").inner_text()


def test_after_a_mend_the_focus_is_on_what_stands_there_now(page, bench):
    opened(page, bench)
    page.locator(".mend").first.focus()
    page.keyboard.press("Enter")
    page.wait_for_selector("#said:has-text('Gone:')")
    assert page.evaluate("document.activeElement.closest('#findings') !== null")


def test_the_link_of_the_page_is_in_sight_where_links_stand_in_a_row(page, bench):
    page.set_viewport_size({"width": 390, "height": 700})
    for name in ("bench", "revisions"):
        page.goto(f"{bench.address}/rig/good/{name}")
        page.wait_for_selector("body[data-ready]")
        box = page.locator("nav [aria-current]").bounding_box()
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= 391


def test_the_look_is_kept(page, bench):
    opened(page, bench, "good")
    page.locator("#look").click()
    assert (
        page.evaluate("getComputedStyle(document.documentElement).backgroundColor")
        == "rgb(0, 0, 0)"
    )
    page.reload()
    page.wait_for_selector("body[data-ready]")
    assert page.locator("#look").get_attribute("aria-pressed") == "true"


def test_nothing_is_asked_of_another_machine(page, bench):
    asked = []
    page.on("request", lambda one: asked.append(one.url))
    opened(page, bench, "good")
    page.wait_for_load_state("networkidle")
    assert asked
    assert all(one.startswith((bench.address, "data:")) for one in asked)


def test_a_document_that_is_taken_away_can_be_put_back(page, bench, folder):
    file = folder / "good.rig.toml"
    opened(page, bench, "good")
    before = file.read_text()
    file.unlink()
    page.wait_for_selector("#broken:has-text('taken the document away')")
    page.reload()
    page.locator("#broken button").click()
    page.wait_for_selector("#broken", state="hidden")
    assert file.read_text() == before


def test_a_chart_that_something_else_breaks_is_told(page, bench, folder):
    act(bench, "good", "copy-chart", chart="bramley-delay", new="bramley-delay")
    opened(page, bench, "good")
    (folder / "charts" / "bramley-delay.chart.toml").write_text("broken [[")
    page.wait_for_selector("#broken:has-text('The chart \"bramley-delay\" beside the rig')")
    assert page.locator("#broken button").is_hidden()
    (folder / "charts" / "bramley-delay.chart.toml").unlink()
    page.wait_for_selector("#broken", state="hidden")


def test_the_first_page_comes_before_its_rig_is_open(page, bench):
    text = request(bench, "GET", "/rig/good/line")[2]
    assert '<script type="application/json" id="status">null</script>' in text
    page.goto(f"{bench.address}/rig/good/units")
    page.wait_for_selector("body[data-ready]")
    assert page.locator(".rig").inner_text().startswith("Orchard Street")
    assert page.title().startswith("Units · Orchard Street")


def test_a_first_page_whose_rig_cannot_be_opened_says_why(page, bench, folder):
    (folder / "good.rig.toml").write_text("[[preset")
    page.goto(f"{bench.address}/rig/good/line")
    page.wait_for_selector("h1:has-text('This cannot be shown')")
    assert "good.rig.toml:1" in page.locator("pre").inner_text()
