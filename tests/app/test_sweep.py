from itertools import pairwise

from tests.bench.clocks import StepClock
from tests.samples.reading import ORCHARD
from thruline.app.sweep import keyboard_travel, played_travel
from thruline.outside.midi_wires import Wires
from thruline.proof.case import Case
from thruline.rig.sweep import values_of
from thruline.wiring import open_file

CASE = Case(open_file(ORCHARD).rig)
SWEEP = CASE.rig.sweeps[0]


def test_heel_to_toe_and_back_at_the_speed_of_the_line():
    clock = StepClock()
    wires = Wires("a", clock=clock)
    rows = list(played_travel(CASE, SWEEP, ports=[wires.open_output("a")], clock=clock, seconds=4))
    came = wires.open_input("a").take()
    assert rows[0].startswith(f"{SWEEP.name} at 0 %")
    assert any(f"{SWEEP.name} at 100 %" in row for row in rows)
    first = SWEEP.moves[0]
    status = 0xB0 | CASE.rig.units[first.unit].sent_on - 1
    sent = [one.data[2] for one in came if one.data[:2] == bytes((status, first.control.number))]
    values = values_of(first)
    assert (sent[0], sent[-1]) == (values[0], values[0])
    assert values[-1] in sent
    for before, after in pairwise(came):
        assert after.at_us - before.at_us >= 320 * len(before.data)


def test_by_keys():
    clock = StepClock()
    wires = Wires("a", clock=clock)
    keys = iter("++-txhq")
    rows = list(
        keyboard_travel(
            CASE, SWEEP, ports=[wires.open_output("a")], clock=clock, key=lambda: next(keys)
        )
    )
    places = [row.partition(" %")[0].rpartition(" ")[2] for row in rows]
    assert places == ["0", "3", "6", "3", "100", "0"]
