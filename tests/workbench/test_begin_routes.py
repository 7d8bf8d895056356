import json

from tests.workbench.asking import request
from tools.browsing import served


def begin(bench, **asked):
    status, _, text = request(bench, "POST", "/begin", json.dumps(asked), Origin=bench.address)
    return status, json.loads(text)


def test_a_rig_is_begun_with_nothing_but_its_controller(page, bench, folder):
    page.goto(f"{bench.address}/rigs")
    page.wait_for_selector("body[data-loaded]")
    page.get_by_label("What is it called?").fill("Näht's board")
    page.get_by_label("Which foot controller").select_option("pearmain-ten")
    page.get_by_role("button", name="Begin it").click()
    page.wait_for_url("**/rig/n-ht-s-board/units")
    page.wait_for_selector("#unit-feet")
    assert page.locator(".rig").inner_text() == "Näht's board"
    text = (folder / "n-ht-s-board.rig.toml").read_text(encoding="utf-8")
    assert 'chart = "pearmain-ten"' in text


def test_the_small_board_is_begun_too_and_nothing_is_overwritten(bench, folder):
    asked = {"name": "Mine", "controller": "braeburn-six", "sample": True}
    assert begin(bench, **asked) == (200, {"place": "/rig/mine/units"})
    text = (folder / "mine.rig.toml").read_text()
    assert text.count("[[unit]]") > 3
    status, told = begin(bench, **{**asked, "sample": False})
    assert status == 422
    assert "is there already" in told["says"]
    assert (folder / "mine.rig.toml").read_text() == text


def test_what_is_no_controller_begins_nothing(bench, folder):
    status, told = begin(bench, name="X", controller="bramley-delay", sample=False)
    assert status == 422
    assert "recalls no presets" in told["says"]
    assert not (folder / "x.rig.toml").exists()


def test_where_one_document_is_served_no_other_is_begun(folder):
    with served(folder / "good.rig.toml") as bench:
        assert request(bench, "GET", "/rigs")[1]["location"] == "/"
        assert request(bench, "GET", "/")[1]["location"] == "/rig/good/"
        assert begin(bench, name="X", controller="braeburn-six", sample=False)[0] == 422
    assert sorted(one.name for one in folder.iterdir()) == ["found.rig.toml", "good.rig.toml"]


def test_an_empty_folder_is_a_beginning(tmp_path, monkeypatch):
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path / "workshop"))
    (tmp_path / "rigs").mkdir()
    with served(tmp_path / "rigs") as bench:
        assert request(bench, "GET", "/")[1]["location"] == "/rigs"
        assert "There is none yet" in request(bench, "GET", "/rigs")[2]


def test_a_rig_that_cannot_be_used_is_told_on_a_page(page, bench, folder):
    (folder / "broken.rig.toml").write_text("[[preset")
    page.goto(f"{bench.address}/rig/broken/line")
    assert "broken.rig.toml:1" in page.locator("pre").inner_text()
    page.get_by_role("link", name="To the rigs").click()
    page.wait_for_selector("h1:has-text('Which rig?')")
