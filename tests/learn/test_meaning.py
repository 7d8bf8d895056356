import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.audit.wide_boards import wide_board
from tests.learn.boards import meant, sent_by
from thruline.compose.goals import control_items
from thruline.learn.agree import Agreed
from thruline.learn.meaning import control_moved, goals_of, knows, stored_of, written
from thruline.learn.travels import Moved
from thruline.rig.preset import StoredControl, StoredPause, StoredProgram, StoredRaw
from thruline.rig.values import Value, read_value

RIG = meant().case.rig
UNITS = {one.sent_on: one for one in RIG.units.values() if one.sent_on}
WIDE = wide_board().units["a"]


def agreed(*data):
    return [Agreed(data=one, at_us=place, count=3, presses=3) for place, one in enumerate(data)]


@pytest.mark.parametrize("preset", RIG.presets, ids=lambda one: one.title)
def test_the_goals_behind_what_a_preset_sends_are_the_ones_that_were_written(preset):
    found = goals_of(agreed(*sent_by(preset.number)), UNITS)
    assert found.unknown == []
    for goal in preset.goals:
        mine = found.by_unit.get(goal.unit, {})
        if goal.program is not None:
            assert str(mine["program"]).lstrip("0") == goal.program.label.lstrip("0")
        for one in goal.controls:
            assert read_value(one.control, mine[one.control.id]).wire == one.value.wire


@given(st.sampled_from(sorted(WIDE.chart.controls)), st.data())
def test_values_of_every_kind_of_control_come_back(name, data):
    control = WIDE.chart.controls[name]
    wire = data.draw(st.integers(control.low, control.high))
    sent = [item.data for item in control_items(WIDE, control, wire)]
    found = goals_of(agreed(*sent), {2: WIDE})
    value = read_value(control, found.by_unit["a"][name])
    assert isinstance(value, Value)
    assert value.wire == wire
    assert read_value(control, written(control, wire)).wire == wire


def test_of_a_fine_half_alone_no_value_is_made():
    alone = goals_of(agreed(b"\xb1\x3d\x03"), {2: WIDE})
    assert alone.by_unit == {}
    assert "only the fine half of it came, 3" in alone.unknown[0]
    stale = goals_of(agreed(b"\xb1\x1d\x0a", b"\xc1\x01", b"\xb1\x3d\x03"), {2: WIDE})
    assert "only the fine half" in stale.unknown[0]


def test_what_no_chart_explains_is_said():
    delay = RIG.units["delay"]
    found = goals_of(
        agreed(b"\xb2\x11\x40", b"\xc2\x05", b"\xcf\x01", b"\x92\x40\x40", b"\xf6"), {3: delay}
    )
    says = " ".join(found.unknown)
    for part in ("control 17 = 64", "no whole bank select", "channel 16", "92 40 40", "no channel"):
        assert part in says
    assert found.by_unit == {}


def test_messages_as_they_stand_in_a_memory():
    found = stored_of(agreed(b"\xc2\x05", b"\xb2\x11\x40", b"\xf6"), [0, 40, 0], programs_from=1)
    assert [*found] == [
        StoredProgram(3, 6, 5), StoredPause(40), StoredControl(3, 17, 64), StoredRaw((0xF6,)),
    ]  # fmt: skip


def test_which_control_a_pedal_moves():
    assert control_moved(Moved(1, 7), WIDE).id == "level"
    assert control_moved(Moved(1, 29, is_pair=True), WIDE).id == "time"
    assert control_moved(Moved(1, 1 << 15 | 300), WIDE).id == "tune"
    assert control_moved(Moved(1, 99), WIDE) is None


def test_whether_a_chart_knows_a_message():
    assert knows(UNITS, b"\xb2\x34\x05") is True
    assert knows(UNITS, b"\xb2\x00\x05") is True
    assert knows(UNITS, b"\xb2\x11\x05") is False
    assert knows(UNITS, b"\x92\x11\x05") is False
    assert knows(UNITS, b"\xcf\x01") is None
