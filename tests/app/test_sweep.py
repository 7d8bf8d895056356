from itertools import pairwise

from tests.bench.clocks import StepClock
from tests.samples.reading import ORCHARD
from thruline.app.sweep import keyboard_travel, learned_pedal, pedal_travel, played_travel
from thruline.bench.listen import Session
from thruline.bench.plugged import HeldInput
from thruline.bench.several import Way
from thruline.outside.midi_wires import Wires
from thruline.proof.case import Case
from thruline.rig.sweep import values_of
from thruline.wiring import open_file

CASE = Case(open_file(ORCHARD).rig)
SWEEP = CASE.rig.sweeps[0]


def test_heel_to_toe_and_back_at_the_speed_of_the_line():
    clock = StepClock()
    wires = Wires("a", clock=clock)
    rows = list(
        played_travel(CASE, SWEEP, ways=[Way(wires.open_output("a"))], clock=clock, seconds=4)
    )
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
            CASE, SWEEP, ways=[Way(wires.open_output("a"))], clock=clock, key=lambda: next(keys)
        )
    )
    places = [row.partition(" %")[0].rpartition(" ")[2] for row in rows]
    assert places == ["0", "3", "6", "3", "100", "0"]


class Hand:
    """A person who moves a pedal on a wire when asked to."""

    def __init__(self, out):
        self.out, self.asked = out, []

    def __call__(self, asked):
        self.asked.append(asked)
        ends = (118, 6) if "toe" in asked else (6, 118)
        for value in range(*ends, 4 if ends[0] < ends[1] else -4):
            self.out.send(bytes((0xB2, 11, value)))


def test_a_real_pedal_is_learned_and_moves_it_without_a_queue():
    clock = StepClock()
    wires = Wires("pedal", clock=clock)
    session = Session([HeldInput(wires, "pedal", clock)], clock, lines=["pedal"])
    out = wires.open_output("pedal")
    pedal = learned_pedal(session, Hand(out))
    assert (pedal.channel, pedal.control) == (3, 11)
    assert pedal.heel > 100
    assert pedal.toe < 20
    board = Wires("board", clock=clock)
    ways, came = [Way(board.open_output("board"))], board.open_input("board")
    for value in (100, 60, 30, pedal.toe):
        out.send(bytes((0xB2, 11, value)))
    rows = list(
        pedal_travel(CASE, SWEEP, ways=ways, session=session, pedal=pedal, until_us=100_000)
    )
    assert len(rows) == 1, "only where it stands now"
    assert "100 %" in rows[0]
    assert [one.data[2] for one in came.take()] == [values_of(one)[127] for one in SWEEP.moves]
