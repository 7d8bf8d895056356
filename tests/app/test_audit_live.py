from tests.audit.boards import board
from tests.bench.clocks import StepClock
from thruline.app.audit import audit, plan_for
from thruline.app.audit_live import Presses, cause_of, tick_of
from thruline.audit.capture import Came
from thruline.audit.capture_text import read_capture
from thruline.audit.fault import Family, Fault
from thruline.bench.listen import Session
from thruline.bench.plugged import HeldInput
from thruline.bench.pretend import pretend_capture
from thruline.outside.midi_wires import Wires
from thruline.proof.case import Case

CASE = Case(board())


class Paper:
    def __init__(self):
        self.rows = []

    def add(self, rows):
        self.rows += rows

    def close(self):
        pass


def test_each_press_is_ticked_off_and_the_log_says_the_same():
    clock = StepClock()
    wires = Wires("USB", clock=clock)
    session = Session([HeldInput(wires, "USB", clock)], clock, lines=["USB"])
    log = Paper()
    session.keep(log)
    meant = plan_for(CASE, ("USB",))
    presses = Presses(session, meant, patience_us=2_000_000)
    out = wires.open_output("USB")
    ticks = []
    for place, _step in enumerate(presses.asked()):
        if place:
            found = presses.so_far()
            ticks.append(tick_of(found, place - 1).is_right)
        if place == 4:
            continue  # nobody presses this one
        fault = [Fault(Family.NUMBERING, 1, 1)] if place >= 2 else []
        for one in pretend_capture(meant, fault, pressed=[place]).entries:
            if isinstance(one, Came):
                out.send(one.data)
    assert ticks == [True, True, *[False] * 10]
    found = presses.so_far()
    assert not tick_of(found, 4).done
    assert found.best.odds > 0
    again = audit(read_capture("\n".join([*log.rows, ""])), meant)
    assert again == found
    assert cause_of(again) == cause_of(found)


def test_before_anything_was_pressed():
    clock = StepClock()
    session = Session([], clock, lines=["USB"])
    presses = Presses(session, plan_for(CASE, ("USB",)), patience_us=1000)
    assert presses.so_far() is None
