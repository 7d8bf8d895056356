import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.opening import open_text
from thruline.app.mend import after_edits, state_of
from thruline.app.sweep_view import (
    added_sweep,
    as_shown,
    end_edit,
    move_entry,
    presets_edit,
    sweeps_json,
)
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
        (MOVE, "toe", "loud", "it reads like"),
        (MOVE, "middle", 3, "a heel and a toe"),
        ("sweep[Swell].moves[delay>none]", "toe", 3, "not there any more"),
    ],
)
def test_an_end_that_makes_no_sense(address, end, wanted, says):
    with pytest.raises(CannotUse, match=says):
        end_edit(STATE, address, end=end, wanted=wanted)


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
