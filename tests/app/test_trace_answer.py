import json

import pytest

from tests.app.test_trace import BOARD, STORED
from tests.opening import open_text
from thruline.app.trace import trace
from thruline.app.trace_answer import trace_json
from thruline.proof.case import Case


@pytest.fixture(scope="module")
def told():
    found = trace_json(trace(Case(open_text(BOARD).rig), 1, came_from=2))
    return json.loads(json.dumps(found))


def test_the_sum(told):
    assert told["preset"] == {"number": 1, "name": "Intro"}
    assert told["from"] == {"number": 2, "name": "Verse"}
    assert told["all_obeyed"]
    assert told["cannot_be_faster"]
    assert told["right_us"] == told["best"]["least_us"]


def test_a_message_in_all_its_forms(told):
    last = told["messages"][-1]
    assert (last["bytes"], last["written"], last["wire"], last["shown"]) == (
        "B2 34 33", "40%", 51, "40 %",
    )  # fmt: skip
    assert last["entry"] == {
        "enter": "control",
        "channel": 3,
        "number": 52,
        "value": 51,
        "output": None,
    }
    assert (last["unit"], last["as_wanted"]) == ("delay", True)


def test_every_byte_of_a_hop(told):
    last = told["messages"][-1]
    (route,) = last["routes"]
    (hop,) = route["hops"]
    assert (hop["from"], hop["to"]) == ("feet.midi-out-1", "delay.midi-in")
    assert [end - start for start, end in hop["bytes_us"]] == [320] * 3
    assert hop["bytes_us"][0][0] == hop["start_us"] == last["leaves_us"]
    assert hop["bytes_us"][-1][1] == route["arrives_us"]


def test_what_is_left_over(told):
    assert told["leftovers"] == []
    (drive,) = trace_json(trace(Case(open_text(BOARD).rig), 2, came_from=1))["leftovers"]
    assert drive["says"] == 'in, left by 1 "Intro"'


def test_units_and_loading(told):
    kinds = {one["unit"]: (one["kind"], one["hears"]) for one in told["units"]}
    assert kinds == {
        "feet": ("controller", True), "drive": ("loop", None), "delay": ("unit", True),
    }  # fmt: skip
    (bar,) = told["loading"]
    assert bar["unit"] == "delay"
    assert bar["end_us"] > bar["start_us"]


def test_what_is_not_obeyed_says_so():
    told = trace_json(trace(Case(open_text(STORED).rig), 1))
    assert told["as_stored"]
    assert not told["all_obeyed"]
    (route,) = told["messages"][-1]["routes"]
    assert (route["fate"], route["obeyed"]) == ("lost", False)
