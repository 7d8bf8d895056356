from dataclasses import replace

import pytest

from tests.audit.boards import board, plan
from tests.routed import case_of_two_lines
from thruline.audit.meant import default_taps, meant_by, parts_of
from thruline.base.errors import CannotUse
from thruline.proof.case import Case

CASE = Case(board())


def test_every_message_of_every_press_at_every_tap():
    meant = plan()
    rows = meant.rows
    sent = sum(len(CASE.run(one).sending.items) for one in CASE.rig.presets)
    now = ~rows.old & ~rows.travel
    for tap in (0, 1):
        assert (now & (rows.tap == tap)).sum() == sent
    assert rows.travel.sum() == 2
    assert [step.title for step in meant.steps][-2:] == ['preset 12 "Cue 12"', 'sweep "Swell"']
    assert meant.changed == (2, 4)
    assert set(rows.step[rows.old].tolist()) == {2, 4}


def test_what_a_closed_output_cuts_off():
    meant = plan()
    names = [str(jack) for jack in meant.lines]
    for name in names:
        cut = meant.cut[names.index(name)]
        assert not cut[0].any(), "nothing on the way cuts the controller off from itself"
        assert cut[1, 0xC1]
    assert meant.own[names.index("b.midi-out")] == 2


def test_an_input_is_listened_to_as_what_feeds_it():
    at_input, at_output = (meant_by(CASE, [tap]) for tap in ("b.midi-in", "a.midi-out"))
    assert (at_input.cut == at_output.cut).all()
    assert default_taps(CASE) == ("feet.midi-out",)


def test_what_cannot_be_listened_to():
    for tap in ("feet", "feet.exp-1", "none.midi-out", "a.nothing"):
        with pytest.raises(CannotUse, match="no MIDI output"):
            meant_by(CASE, [tap])
    bare = Case(replace(board(), controller=None))
    with pytest.raises(CannotUse, match="no controller"):
        meant_by(bare, ["feet.midi-out"])
    assert default_taps(bare) == ()


def test_long_messages_are_told_apart_by_their_bytes():
    one, other = (parts_of(bytes((0xF0, 0x7D, last, 0xF7))) for last in (1, 2))
    assert one != other
    assert one[0] == 0xF


def test_at_one_output_of_several_only_its_own_messages_are_meant():
    case = case_of_two_lines()
    items = case.run(case.rig.presets[0]).sending.items
    for tap, unit in (("feet.midi-out-1", "delay"), ("feet.midi-out-2", "echo")):
        meant = meant_by(case, [tap])
        assert {meant.units[place] for place in meant.rows.unit.tolist()} == {unit}
        own = [place for place, item in enumerate(items) if item.unit == unit]
        assert meant.rows.place.tolist() == own
    both = meant_by(case, ["feet.midi-out-1", "echo.midi-in"])
    assert sorted(both.rows.place.tolist()) == list(range(len(items)))
