import json
import time

import pytest

from tests.workbench.asking import act, ask, request

MIX = {"do": "set", "address": "preset[2].name", "value": "New name"}


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


def test_a_page_that_is_not_there_is_told_with_those_that_are(bench):
    for ending in ("", ".json"):
        status, _, text = request(bench, "GET", f"/rig/good/cellar{ending}")
        assert status == 422
        assert json.loads(text)["says"].startswith('there is no page "cellar"; there are line, ')


def test_what_happens_to_a_rig_is_told_to_its_bench(bench):
    request(bench, "GET", "/rig/good/bench/state.json")
    wings = bench.bench.wings.loaded
    used = []
    wings.benches.use = used.append
    act(bench, "good", "edit", edits=[MIX], seen=ask(bench, "good", "status")["revision"])
    deadline = time.monotonic() + 10
    while not used and time.monotonic() < deadline:
        time.sleep(0.02)
    assert used[0] == "good"
