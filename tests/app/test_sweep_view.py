import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.opening import open_text
from thruline.app.mend import after_edits, state_of
from thruline.app.sweep_view import (
    added_sweep,
    as_shown,
    curve_edit,
    end_edit,
    move_entry,
    presets_edit,
    sweeps_json,
)
from thruline.base.address import read_address
from thruline.base.edit import set_to
from thruline.base.errors import CannotUse
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.rig.sweep import values_of
from thruline.rig.values import read_value

STATE = state_of(open_text(sample_text(ORCHARD_STREET)))
SWELL = "sweep[Swell]"
MOVE = "sweep[Swell].moves[delay>mix]"
CONTROLS = [one for unit in STATE.opened.rig.units.values() for one in unit.chart.controls.values()]


def test_every_move_has_its_bytes():
    told = sweeps_json(STATE)
    swell = next(one for one in told["sweeps"] if one["address"] == SWELL)
    move = swell["moves"][0]
    assert move["address"] == MOVE
    assert move["values"] == list(values_of(STATE.opened.rig.sweeps[1].moves[0]))
    assert len(move["shares"]) == 128
    assert swell["presets"] == "3, 7, 11, 12, 17, 22"
    assert "feet.exp-1" in told["pedals"]


@given(st.sampled_from(CONTROLS), st.integers(-50, 20_000))
def test_a_byte_is_written_as_the_unit_shows_it_only_where_that_says_the_same(control, wire):
    wire = min(control.high, max(control.low, wire))
    written = as_shown(control, wire)
    assert (
        read_value(control, written).wire == wire if isinstance(written, str) else written == wire
    )


@pytest.mark.parametrize(("wanted", "value"), [(64, 64), ("50%", "50%"), ("12", 12)])
def test_an_end_is_put_somewhere(wanted, value):
    after = after_edits(STATE, [end_edit(STATE, MOVE, end="toe", wanted=wanted)])
    toe = after.opened.rig.sweeps[1].moves[0].toe
    assert toe.wire == read_value(after.opened.rig.sweeps[1].moves[0].control, value).wire


@pytest.mark.parametrize(
    ("address", "end", "wanted", "says"),
    [
        (MOVE, "toe", "loud", "it reads like [0-9]"),
        (MOVE, "toe", "-1", "-1 is outside 0 to 127; it reads like [0-9]"),
        (MOVE, "toe", "1.5", "not a whole wire number, and has no measure after it"),
        (MOVE, "middle", 3, "a heel and a toe"),
        ("sweep[Swell].moves[delay>none]", "toe", 3, "not there any more"),
    ],
)
def test_an_end_that_makes_no_sense(address, end, wanted, says):
    with pytest.raises(CannotUse, match=says):
        end_edit(STATE, address, end=end, wanted=wanted)


def curved(curve):
    return after_edits(STATE, [curve_edit(STATE, MOVE, curve)])


def test_a_curve_becomes_points_and_a_shape_again():
    before = values_of(STATE.opened.rig.sweeps[1].moves[0])
    state = curved("points")
    told = sweeps_json(state)["sweeps"][1]["moves"][0]
    assert (told["curve"], told["nearest"]) == ("points", "s")
    assert told["points"][0] == [0, 0]
    assert max(abs(a - b) for a, b in zip(told["values"], before, strict=True)) <= 2
    again = after_edits(state, [curve_edit(state, MOVE, told["nearest"])])
    assert again.opened.document.text == STATE.opened.document.text


def test_points_are_written_in_the_order_of_their_travel():
    state = curved([[100, 100], [0, 0], [70, 20]])
    assert "curve = [[0, 0], [70, 20], [100, 100]]" in state.opened.document.text
    move = sweeps_json(state)["sweeps"][1]["moves"][0]
    assert move["points"] == [[0, 0], [70, 20], [100, 100]]
    assert move["values"] == list(values_of(state.opened.rig.sweeps[1].moves[0]))


pairs = st.lists(st.integers(-2, 102) | st.booleans() | st.just(2.5), min_size=1, max_size=3)


@given(st.lists(pairs, max_size=4) | st.sampled_from(["linear", "s", "wavy"]))
@settings(max_examples=40, deadline=None)
def test_what_the_document_would_refuse_is_refused_before(curve):
    address = read_address(f"{MOVE}.curve")
    try:
        after_edits(STATE, [set_to(address, curve)])
    except CannotUse:
        with pytest.raises(CannotUse):
            curve_edit(STATE, MOVE, curve)
    else:
        curve_edit(STATE, MOVE, curve)


@pytest.mark.parametrize(
    ("curve", "says"),
    [
        ([[0, 0]], "two points at least"),
        ([[0, 0], [50, 101]], "point 2: its share is from 0 % to 100 %, not 101"),
        ([[-1, 0], [50, 10]], "point 1: its travel"),
        ([[0, 0], [50]], "point 2: a travel and a share"),
        ([[0, 0], [50, "half"]], "whole percents such as"),
        ("wavy", "there are linear, audio, late, s, or points"),
        (None, "there is no curve"),
    ],
)
def test_a_curve_that_makes_no_sense(curve, says):
    with pytest.raises(CannotUse, match=says):
        curve_edit(STATE, MOVE, curve)


@pytest.mark.parametrize(("text", "value"), [("all", "all"), (" 3; 7,11 ", [3, 7, 11]), ("5", [5])])
def test_presets_as_they_are_typed(text, value):
    assert presets_edit(STATE, SWELL, text).value == value


@pytest.mark.parametrize("text", ["", "some", "3, x", "1-5"])
def test_presets_that_make_no_sense(text):
    with pytest.raises(CannotUse, match="read like 3, 7, 11"):
        presets_edit(STATE, SWELL, text)


def test_a_sweep_is_added_over_the_whole_range():
    edit = added_sweep(STATE, "feet.exp-1", unit="delay", control="mix")
    after = after_edits(STATE, [edit])
    assert after.opened.rig.sweeps[-1].name == "Sweep 1"
    values = values_of(after.opened.rig.sweeps[-1].moves[0])
    assert (values[0], values[-1]) == (0, 127)
    with pytest.raises(CannotUse, match="no input for a pedal"):
        added_sweep(STATE, "feet.midi-out-1", unit="delay", control="mix")
    with pytest.raises(CannotUse, match="no control"):
        move_entry(STATE, "delay", "shine")
