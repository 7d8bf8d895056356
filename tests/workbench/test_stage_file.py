"""The Stage page as one file, opened from a disk without a server."""

import json
import re

import pytest

from tests.app.keeping import BOARD
from tests.opening import open_text
from tests.workbench.asking import ask, request
from thruline.app.stage_view import stage_json
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.workbench.stage_file import SCRIPTS, stage_file

SET = stage_json(open_text(sample_text(ORCHARD_STREET)))
TRAP = "</script><script>document.title = 'caught'</script>"


@pytest.fixture
def telephone(chromium, tmp_path):
    """Opens a file on a telephone that reaches nothing; what it asked for or could not run."""
    context = chromium.new_context(viewport={"width": 390, "height": 780}, has_touch=True)
    context.set_default_timeout(8000)
    context.set_offline(True)
    page, troubles = context.new_page(), []
    page.on("pageerror", lambda one: troubles.append(str(one)))
    page.on("console", lambda one: troubles.append(one.text))

    def opened(text):
        file = tmp_path / "kept.html"
        file.write_text(text, encoding="utf-8")
        page.on("request", lambda one: troubles.append(one.url) if one.url != file.as_uri() else 0)
        page.goto(file.as_uri())
        page.wait_for_selector("body[data-ready]")
        return page

    yield opened
    context.close()
    assert [one for one in troubles if not one.startswith("data:")] == []


def test_it_is_stepped_through_without_a_server(telephone):
    page = telephone(stage_file(SET, made="2026-11-28"))
    steps = [step for song in SET["songs"] for step in song["steps"]]
    shown = page.locator("#now")
    assert shown.inner_text() == f"{steps[0]['number']} {steps[0]['name']}"
    page.locator("#on").tap()
    page.keyboard.press("PageDown")
    assert shown.inner_text() == f"{steps[2]['number']} {steps[2]['name']}"
    page.locator("#back").tap()
    assert shown.inner_text() == f"{steps[1]['number']} {steps[1]['name']}"
    page.reload()
    page.wait_for_selector("body[data-ready]")
    assert shown.inner_text() == f"{steps[1]['number']} {steps[1]['name']}"
    page.locator("summary").tap()
    page.locator("#set button").last.tap()
    assert shown.inner_text() == f"{steps[-1]['number']} {steps[-1]['name']}"
    assert page.locator("header").inner_text().endswith("as it was on 2026-11-28")


def test_it_is_dark_large_and_as_wide_as_a_telephone(telephone):
    page = telephone(stage_file(SET, made="2026-11-28"))
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    ground = page.evaluate("getComputedStyle(document.documentElement).backgroundColor")
    assert ground == "rgb(0, 0, 0)"
    size = page.evaluate("parseFloat(getComputedStyle(document.querySelector('#now')).fontSize)")
    assert size >= 40


def test_names_are_words_and_nothing_runs_that_is_not_the_pages_own(telephone):
    page = telephone(stage_file(stage_json(open_text(BOARD.replace("Lead", TRAP))), made="today"))
    page.locator("#on").tap()
    assert TRAP in page.locator("#set").evaluate("one => one.textContent")
    assert page.title() != "caught"


def test_where_no_script_runs_it_can_still_be_read(chromium, tmp_path):
    file = tmp_path / "kept.html"
    file.write_text(stage_file(SET, made="2026-11-28"), encoding="utf-8")
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(file.as_uri())
    assert [one.inner_text() for one in page.locator("noscript li").all()] == [
        step["name"] for song in SET["songs"] for step in song["steps"]
    ]
    context.close()


def test_it_needs_no_other_file():
    text = stage_file(SET, made="2026-11-28")
    assert not re.search(r"^(import|export) ", text, re.MULTILINE)
    assert re.findall(r"(?:src|href)=\"([^\"]*)\"", text) == ["data:,"]
    assert text.count("</script>") == 2
    policy = re.search(r'content="(default-src[^"]*)"', text)[1].replace("&#39;", "'")
    assert policy.startswith("default-src 'none'; script-src 'sha256-")
    assert "unsafe" not in policy
    held = re.search(r'id="held">(.*?)</script>', text)[1]
    assert json.loads(held) == SET
    assert "stage.js" not in SCRIPTS


def test_the_workbench_gives_it_to_be_saved(bench):
    status, headers, text = request(bench, "GET", "/rig/good/stage/file.html")
    assert status == 200
    assert headers["content-disposition"] == "attachment; filename*=UTF-8''good.stage.html"
    held = json.loads(re.search(r'id="held">(.*?)</script>', text)[1])
    assert held["songs"] == ask(bench, "good", "stage")["songs"]
    status, _, text = request(bench, "GET", "/rig/none/stage/file.html")
    assert (status, "there is no rig") == (422, json.loads(text)["says"][:15])
