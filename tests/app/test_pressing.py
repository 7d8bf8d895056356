import pytest

from tests.audit.boards import board
from thruline.app.audit import plan_for
from thruline.app.pressing import Pressing, judged
from thruline.audit.align import SILENCE_US
from thruline.audit.capture import Came, Note, NoteKind
from thruline.audit.fault import Family, Fault
from thruline.base.errors import CannotUse
from thruline.bench.pretend import pretend_capture
from thruline.proof.case import Case

CASE = Case(board())
MEANT = plan_for(CASE, ("USB",))


def pressed(pressing, place, now_us, faults=()):
    """One step done, as it would be heard; the time after it."""
    pressing.write([Note(now_us, 0, *pressing.note)])
    came = [
        Came(now_us + one.at_us, 1, one.data)
        for one in pretend_capture(MEANT, faults, pressed=[place]).entries
        if isinstance(one, Came)
    ]
    last = came[-1].at_us
    assert not pressing.hear(came, last)
    assert not pressing.hear([], last + SILENCE_US - 1)
    assert pressing.hear([], last + SILENCE_US)
    return last + SILENCE_US


def test_it_goes_on_when_a_press_was_heard_and_then_nothing_more():
    pressing = Pressing(MEANT, CASE.rig, lines=("USB",))
    assert pressing.judged() is None
    now = pressed(pressing, 0, 0)
    assert pressing.as_json()["place"] == 1
    now = pressed(pressing, 1, now, [Fault(Family.NUMBERING, 1, 1)])
    pressing.write([Note(now, 0, *pressing.note)])
    found = pressing.judged()
    assert not found["presses"][2]["pressed"], "asked for, and not heard yet"
    assert [one["right"] for one in found["presses"][:2]] == [True, False]
    assert found["presses"][0]["preset"] == MEANT.steps[0].preset
    assert pressing.judged() is found, "worked out once"
    assert found == judged(pressing.capture, MEANT, CASE.rig), "as if all was read only now"


def test_clock_alone_is_no_press():
    pressing = Pressing(MEANT, CASE.rig, lines=("USB",))
    assert not pressing.hear([Came(0, 1, b"\xf8")], 0)
    assert not pressing.hear([], 10 * SILENCE_US)


def test_everything_can_be_passed_over_and_then_nothing_is_asked():
    pressing = Pressing(MEANT, CASE.rig, lines=("USB",))
    kinds = {pressing.note[0]}
    assert [pressing.skip() for _ in MEANT.steps] == [one.title for one in MEANT.steps]
    assert kinds == {NoteKind.PRESS}
    assert pressing.step is pressing.note is None
    assert pressing.as_json()["asks"] == ""
    with pytest.raises(CannotUse, match="asked for already"):
        pressing.skip()


REPLY = bytes.fromhex("f0 7e 00 06 02 7d 03 00 01 03 01 00 00 00 f7")


@pytest.mark.parametrize("pieces", [1, len(REPLY)])
def test_asking_who_is_there_is_no_press(pieces):
    pressing = Pressing(MEANT, CASE.rig, lines=("USB",))
    size = len(REPLY) // pieces
    came = [Came(at, 1, REPLY[at : at + size]) for at in range(0, len(REPLY), size)]
    for one in came:
        assert not pressing.hear([one], 0)
    assert not pressing.hear([], 10 * SILENCE_US)
    assert pressing.as_json()["place"] == 0
    pressing.hear([Came(0, 1, b"\xc0\x05")], 0)
    assert pressing.hear([], SILENCE_US)
