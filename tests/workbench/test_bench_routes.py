import json
import time

import pytest

from tests.workbench.asking import request

LOOP = "in memory: loop"
OUT = {"port": LOOP, "over": ""}
TAP = "feet.midi-out-1"


def get(bench, place):
    status, _, text = request(bench, "GET", f"/rig/good/bench/{place}")
    return status, json.loads(text)


def do(bench, deed, rig="good", **asked):
    place = f"/rig/{rig}/bench/do/{deed}"
    status, _, text = request(bench, "POST", place, json.dumps(asked), Origin=bench.address)
    return status, json.loads(text)["says"]


def wait_for(bench, is_so, seconds=8):
    end = time.monotonic() + seconds
    while True:
        found = get(bench, "state.json")[1]
        if is_so(found):
            return found
        assert time.monotonic() < end, found
        time.sleep(0.05)


def opened(bench):
    inputs = [{"port": LOOP, "line": TAP}]
    assert do(bench, "open", inputs=inputs, outputs=[OUT]) == (200, "")
    assert do(bench, "sound", down=True)[0] == 200


def test_a_preset_goes_round_and_is_audited_from_its_log(bench):
    opened(bench)
    assert do(bench, "audit")[0] == 200
    do(bench, "send", preset=1)
    found = wait_for(bench, lambda one: one["audit"]["place"] == 1)
    assert found["sending"]["progress"] == "done"
    press = get(bench, "audit.json")[1]["found"]["presses"][0]
    assert (press["preset"], press["right"]) == (1, True)
    assert "polyline" in get(bench, "chart.json?preset=1")[1]["svg"]
    told = get(bench, "told.json?after=0&only=delay")[1]
    assert all("delay" in one["says"] for one in told["rows"] if one["kind"] == "program")
    do(bench, "close")
    name = get(bench, "state.json")[1]["captures"][0].replace(" ", "%20")
    assert get(bench, f"audit.json?capture={name}")[1]["found"]["presses"][0]["right"]
    assert get(bench, f"replay.json?capture={name}")[1]["rows"]
    assert "polyline" in get(bench, f"chart.json?capture={name}&preset=1")[1]["svg"]
    status, headers, page = request(bench, "GET", f"/rig/good/bench/report?capture={name}")
    assert (status, headers["content-disposition"].split('"')[1]) == (200, "good.audit.html")
    assert "1 of 1 presses are as they were meant; " in page
    assert "Press by press" in page
    status, headers, text = request(bench, "GET", f"/rig/good/bench/capture/{name}")
    assert (status, text[:18]) == (200, "thruline capture 1")
    assert "attachment" in headers["content-disposition"]


@pytest.mark.parametrize(
    "place",
    [
        "chart.json?preset=x", "chart.json?preset=1", "replay.json?capture=..%2fx",
        "audit.json?capture=none", "report", "report?capture=none", "told.json?only=nobody",
        "capture/..%2f..%2fworkshop.sqlite",
    ],
)  # fmt: skip
def test_what_is_not_there_is_said(bench, place):
    opened(bench)
    status, _, text = request(bench, "GET", f"/rig/good/bench/{place}")
    assert status in (404, 422)
    assert "Traceback" not in text


def test_a_port_that_another_rig_sends_to_is_refused_and_free_after_it_is_let_go(bench):
    opened(bench)
    status, says = do(bench, "open", rig="found", inputs=[], outputs=[OUT])
    assert status == 422
    assert 'in use at the bench of the rig "good"' in says
    do(bench, "close")
    assert do(bench, "open", rig="found", inputs=[], outputs=[OUT])[0] == 200


def test_a_port_that_is_not_there_is_said_and_nothing_stays_open(bench):
    status, says = do(bench, "open", inputs=[], outputs=[{**OUT, "port": "in memory: nowhere"}])
    assert (status, "no such wire" in says) == (503, True)
    found = get(bench, "state.json")[1]
    assert found["open"] == {"inputs": [], "outputs": []}
    assert {one["holder"] for one in found["outputs"]} == {""}


def test_pulled_out_in_the_middle_it_is_told_and_goes_on_when_it_is_back(bench):
    opened(bench)
    wires = bench.bench.wings.loaded.benches.ports._systems._made["in memory: "]
    wires.unplug("loop")
    wait_for(bench, lambda one: not one["open"]["inputs"][0]["there"])
    do(bench, "send", preset=1)
    found = wait_for(bench, lambda one: one["sending"]["progress"] == "failed")
    assert "is gone" in found["sending"]["says"]
    assert do(bench, "panic")[0] == 503
    wires.plug_in("loop")
    wait_for(bench, lambda one: one["open"]["inputs"][0]["there"])
    assert found["sending"]["again"] == [LOOP]
    do(bench, "again")
    found = wait_for(bench, lambda one: one["sending"]["progress"] == "done")
    assert found["sending"]["again"] == []
    assert do(bench, "again") == (422, "nothing is left to be sent again")
    rows = get(bench, "told.json?after=0")[1]["rows"]
    says = [one["says"] for one in rows if one["kind"] == "note-of-the-session"]
    assert any("is gone" in one for one in says)
    assert any("is back" in one for one in says)
