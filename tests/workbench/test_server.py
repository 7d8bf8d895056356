import json

import pytest

from tests.workbench.asking import act, ask, request
from thruline.workbench.content import Content
from thruline.workbench.pages import line

MIX = {"do": "set", "address": "preset[2].name", "value": "New name"}


def test_the_front_lists_the_rigs_of_the_folder(bench):
    status, _, text = request(bench, "GET", "/rigs")
    assert status == 200
    assert "/rig/found/line" in text
    assert "/rig/good/line" in text


@pytest.mark.parametrize(
    "place",
    [
        "/rig/nowhere/line", "/rig/found/nowhere", "/rig/%2e%2e/line", "/rig/..%2f..%2fetc/line",
        "/rig/found/%2e%2e.json", "/static/../server.py", "/static/%2e%2e/server.py",
        "/rig/found/line.json?preset=9999", "/rig/found/line.json?preset=x",
    ],
)  # fmt: skip
def test_what_is_not_there_is_said_and_nothing_else_is_reached(bench, place):
    status, _, text = request(bench, "GET", place)
    assert status in (404, 422)
    assert "Traceback" not in text


def test_a_link_out_of_the_folder_is_refused(bench, folder, tmp_path):
    (tmp_path / "secret.rig.toml").write_text("x")
    (folder / "out.rig.toml").symlink_to(tmp_path / "secret.rig.toml")
    assert "leads out of the folder" in request(bench, "GET", "/rig/out/line")[2]


def test_an_edit_is_in_the_file_and_undone_from_it(bench, folder):
    before = (folder / "good.rig.toml").read_text()
    seen = ask(bench, "good", "status")["revision"]
    status, told = act(bench, "good", "edit", edits=[MIX], seen=seen)
    assert status == 200
    assert told["turn"] == 2
    assert 'name = "New name"' in (folder / "good.rig.toml").read_text()
    assert act(bench, "good", "undo")[0] == 200
    assert (folder / "good.rig.toml").read_text() == before
    assert act(bench, "good", "redo")[1]["can_redo"] is False


def test_a_mend_is_made_once(bench):
    status = ask(bench, "found", "status")
    finding = next(one for one in status["findings"] if one["mends"])
    asked = {"finding": finding["id"], "mend": finding["mends"][0]["says"]}
    code, told = act(bench, "found", "mend", **asked)
    assert code == 200
    assert finding["says"] in told["effect"]["gone"]
    code, told = act(bench, "found", "mend", **asked)
    assert code == 422
    assert "no longer needed" in told["says"]


def test_an_edit_where_something_changed_meanwhile_is_asked_about(bench, folder):
    seen = ask(bench, "good", "status")["revision"]
    act(bench, "good", "edit", edits=[MIX], seen=seen)
    other = {**MIX, "value": "Other name"}
    code, told = act(bench, "good", "edit", edits=[other], seen=seen)
    assert code == 409
    assert told["clashes"][0]["now"] == "New name"
    assert "Other name" not in (folder / "good.rig.toml").read_text()


@pytest.mark.parametrize(
    ("deed", "asked", "says"),
    [
        ("edit", {"edits": [], "seen": 1}, "a list of edits is wanted"),
        ("edit", {"edits": [MIX]}, '"seen" is wanted'),
        ("edit", {"edits": [{**MIX, "do": "burn"}], "seen": 1}, "set, add or remove"),
        ("edit", {"edits": [{**MIX, "address": "preset[2].."}], "seen": 1}, "is not an address"),
        ("edit", {"edits": [{**MIX, "address": "preset[2].number"}], "seen": 1}, "a whole number"),
        ("restore", {"revision": 77}, "no revision 77"),
        ("undo", {}, "nothing to undo"),
        ("burn", {}, 'there is no "burn"'),
    ],
)  # fmt: skip
def test_what_cannot_be_done_is_said(bench, folder, deed, asked, says):
    before = (folder / "good.rig.toml").read_text()
    code, told = act(bench, "good", deed, **asked)
    assert code == 422
    assert says in told["says"]
    assert (folder / "good.rig.toml").read_text() == before


@pytest.mark.parametrize(
    ("body", "code"), [("nonsense", 422), ("[1]", 422), ("[" * 99999, 422), ("x" * 3_000_000, 413)]
)
def test_a_body_that_makes_no_sense(bench, body, code):
    place = "/rig/good/do/edit"
    assert request(bench, "POST", place, body, Origin=bench.address)[0] == code


def test_a_foreign_page_changes_nothing(bench, folder):
    before = (folder / "good.rig.toml").read_text()
    body = json.dumps({"edits": [MIX], "seen": 1})
    answer = request(bench, "POST", "/rig/good/do/edit", body, Origin="http://evil.example")
    assert answer[0] == 403
    assert (folder / "good.rig.toml").read_text() == before


def test_links_need_a_shared_workbench(bench):
    code, _, text = request(bench, "POST", "/link", "{}", Origin=bench.address)
    assert code == 422
    assert "--share" in text
    bench.bench.address = "http://192.0.2.7:1"
    told = json.loads(request(bench, "POST", "/link", "{}", Origin=bench.address)[2])
    assert told["link"].startswith("http://192.0.2.7:1/enter/")
    token = told["link"].rpartition("/")[2]
    code, headers, _ = request(bench, "GET", f"/enter/{token}")
    assert code == 303
    assert "HttpOnly" in headers["set-cookie"]
    assert "does not work any more" in request(bench, "GET", f"/enter/{token}")[2]


def test_a_fault_of_the_program_is_told_and_the_next_page_works(bench, monkeypatch):
    monkeypatch.setattr(line, "CONTENT", Content(data=lambda *_: 1 / 0))
    code, _, text = request(bench, "GET", "/rig/good/line.json")
    assert code == 500
    assert "went wrong here (ZeroDivisionError)" in json.loads(text)["says"]
    assert request(bench, "GET", "/rig/good/units.json")[0] == 200
