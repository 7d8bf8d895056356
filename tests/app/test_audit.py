import pytest

from tests.audit.boards import board
from thruline.app.audit import audit, audit_json, audit_rows, plan_for
from thruline.audit.capture import Capture
from thruline.audit.fault import Family, Fault
from thruline.base.errors import CannotUse
from thruline.bench.pretend import pretend_capture
from thruline.proof.case import Case

CASE = Case(board())


def answered(faults, *taps, pressed=None):
    meant = plan_for(CASE, taps or ("USB",))
    found = audit(pretend_capture(meant, faults, pressed=pressed), meant)
    return [*audit_rows(found, meant, CASE.rig)], audit_json(found, meant, CASE.rig)


def test_words_and_json_name_the_same_cause():
    rows, told = answered([Fault(Family.SWAPPED, 0, 2)])
    says = "the channels of Orchard X and Orchard Z are exchanged"
    assert rows[0] == "1 of 13 presses are as they were meant"
    assert rows[1].startswith(f"LIKELIEST  {says}")
    assert "look at" in rows[2]
    assert told["causes"][0]["faults"][0]["says"] == says
    assert not told["clean"]
    assert sum("DIFF" in row for row in rows) == 12
    assert len(told["presses"]) == 13


def test_equal_effects_are_told():
    rows, told = answered([Fault(Family.SHUT, 0)], "c.midi-out", "feet.midi-out")
    assert any("or, with just the same effect" in row for row in rows)
    assert len(told["causes"][0]["same_effect"]) >= 2


def test_a_good_board():
    rows, told = answered([], pressed=[0, 1])
    assert rows[0] == "2 of 2 presses are as they were meant; 11 were not pressed"
    assert "no mistake" in rows[1]
    assert told["clean"]


def test_where_was_it_listened_to():
    assert plan_for(CASE, ("c.midi-out", "a.midi-out")).taps == ("c.midi-out", "a.midi-out")
    assert plan_for(CASE, ("USB", "B"), at=("c.midi-out", "a.midi-out")).taps[0] == "c.midi-out"
    assert plan_for(CASE, ("USB",)).taps == ("feet.midi-out",)
    with pytest.raises(CannotUse, match="say with --at"):
        plan_for(CASE, ("USB", "B"))
    with pytest.raises(CannotUse, match="--at names 1"):
        plan_for(CASE, ("USB", "B"), at=("c.midi-out",))


def test_nothing_was_heard():
    with pytest.raises(CannotUse, match="is the right port listened to"):
        audit(Capture(lines=("USB",), entries=()), plan_for(CASE, ("USB",)))
