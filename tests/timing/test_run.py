from itertools import pairwise

import pytest

from tests.rigs import (
    make_box,
    make_cable,
    make_chart,
    make_controller,
    make_line,
    make_rig,
    make_unit,
    midi_in,
    midi_out,
)
from tests.timing.ears import BYTE, CONTROLS, PROGRAMS
from tests.timing.wired import HANDS, arrivals_by_hand, played, roads, sendings, wired
from thruline.timing.fate import Fate
from thruline.timing.receive import Arrival, listener_of, receive
from thruline.timing.run import ROW, Hand, hear_all, listeners_of, run_all, run_one
from thruline.timing.sending import Item, Purpose, Sending

PLAIN = Hand(gap_us=0, running_status=False)


def sending(*data, pause_us=0):
    return Sending(tuple(Item(bytes(one), Purpose.OTHER, pause_us=pause_us) for one in data))


def one_of(rig, data, *, hand=PLAIN):
    return run_one(roads(rig), listeners_of(rig.units.values()), data, hand=hand)


def line(length=2, **chart):
    return make_line(length, control=CONTROLS, programs=PROGRAMS, **chart)


@pytest.mark.parametrize("seed", range(120))
def test_runs_are_as_the_event_loop_has_them(seed):
    rig, many = wired(seed), sendings(seed)
    for hand in HANDS:
        for run in played(rig, many, hand=hand):
            slow = arrivals_by_hand(rig, run.sending, hand=hand)
            for unit, heard in run.heard.items():
                ears = listener_of(rig.units[unit])
                expected = [
                    row
                    for row in slow[unit]
                    if (status := run.sending.items[row[0]].data[0]) < 0xF0
                    and ears.hears[status & 0x0F] is not False
                ]
                assert [(one.place, *one.arrival[:2]) for one in heard] == expected
                assert run.receptions[unit] == receive(ears, [one.arrival for one in heard])


@pytest.mark.parametrize("seed", range(120))
def test_many_at_once_are_as_each_by_itself(seed):
    rig, many = wired(seed), sendings(seed)
    for hand in HANDS:
        runs = played(rig, many, hand=hand)
        assert runs == tuple(played(rig, [one], hand=hand)[0] for one in many)


def test_the_cases_lose_messages_and_make_units_deaf():
    runs = [
        run for seed in range(120) for run in played(wired(seed), sendings(seed), hand=HANDS[0])
    ]
    fates = [fate for run in runs for one in run.receptions.values() for fate in one.fates]
    assert sum(bool(run.lost) for run in runs) > 10
    assert {Fate.OBEYED, Fate.LOST, Fate.HELD, Fate.NO_CONTROL} <= set(fates)


def test_no_sendings_are_no_runs():
    rig = line()
    assert run_all(roads(rig), listeners_of(rig.units.values()), sendings=[], hand=PLAIN) == ()


def test_nothing_sent_changes_nothing():
    run = one_of(line(), Sending(()))
    assert (run.right_us, run.lost) == (0, ())
    assert all(one.fates == () for one in run.receptions.values())


def test_without_a_controller_nobody_hears_anything():
    rig = make_rig([make_unit("delay", "bramley")], rig={"name": "x", "controller": "feet"})
    run = one_of(rig, sending((0xC0, 1)))
    assert run.heard == {"delay": ()}


def test_where_a_message_is_when():
    rig = line(2, output=[{"socket": "midi-out", "ways": ["thru-soft"], "latency-us": 500}])
    run = one_of(rig, sending((0xC0, 1), (0xB1, 14, 9)))
    (near,), (far,) = run.heard["unit-1"], run.heard["unit-2"]
    assert (near.place, near.arrival) == (0, Arrival(0, 2 * BYTE, b"\xc0\x01"))
    assert (far.place, far.arrival.data) == (1, b"\xb1\x0e\x09")
    assert far.arrival.end_us == 2 * BYTE + 2 * 3 * BYTE + 500
    assert run.right_us == far.arrival.end_us


def test_the_gap_of_the_controller_and_pauses_move_everything():
    one = one_of(
        line(1), sending((0xC0, 1), pause_us=1000), hand=Hand(gap_us=200, running_status=False)
    )
    assert one.heard["unit-1"][0].arrival.start_us == 1200


def test_a_unit_with_two_inputs_hears_the_earlier_first():
    chart = make_chart("twice", [midi_in("a"), midi_in("b")], output=[], control=CONTROLS)
    feet = make_controller(sockets=[midi_out("out-1"), midi_out("out-2")])
    slow = make_chart(channel={"factory": 9})
    units = [
        make_unit("feet", "braeburn"),
        make_unit("far", "bramley"),
        make_unit("delay", "twice"),
    ]
    cables = [
        make_cable("feet.out-1", "far.midi-in"),
        make_cable("far.midi-out", "delay.a"),
        make_cable("feet.out-2", "delay.b"),
    ]
    run = one_of(
        make_rig(units, cables, [feet, chart, slow]), sending((0xB0, 14, 9), (0xB0, 14, 8))
    )
    heard = run.heard["delay"]
    assert [one.place for one in heard] == [0, 0, 1, 1]
    assert all(a.arrival.end_us <= b.arrival.end_us for a, b in pairwise(heard))


def test_what_a_full_buffer_has_no_room_for_is_told():
    outs = [midi_out("out-1"), midi_out("out-2")]
    output = {"socket": "out-1", "ways": ["merge"], "buffer-bytes": 6}
    charts = [make_controller(sockets=outs), make_box("box", 2, 1, output=[output]), make_chart()]
    units = [make_unit("feet", "braeburn"), make_unit("box", "box"), make_unit("delay", "bramley")]
    cables = [make_cable(f"feet.out-{n}", f"box.in-{n}") for n in (1, 2)]
    cables.append(make_cable("box.out-1", "delay.midi-in"))
    run = one_of(make_rig(units, cables, charts), sending(*[(0xB0, 14, n) for n in range(6)]))
    arrived = [one.place for one in run.heard["delay"]]
    assert len(arrived) < 12  # both outputs of the controller carry all six
    assert set(run.lost) == {place for place in range(6) if arrived.count(place) < 2}


def test_a_short_message_behind_a_long_one_queues():
    output = {"socket": "midi-out", "ways": ["thru-soft"], "latency-us": 500}
    run = one_of(line(2, output=[output]), sending((0xB1, 14, 1), (0xC1, 5)))
    assert [one.arrival.end_us for one in run.heard["unit-2"]] == [6 * BYTE + 500, 8 * BYTE + 500]


def test_what_hears_can_be_exchanged():
    rig, asked = line(2), []

    def noting(listener, came, sendings):
        asked.append((listener.unit.id, [len(each) // (8 * ROW) for each in came]))
        return hear_all(listener, came, sendings)

    ears = listeners_of(rig.units.values())
    data = sending((0xC0, 1), (0xB0, 14, 2))
    runs = run_all(roads(rig), ears, sendings=[data], hand=PLAIN, hears=noting)
    assert asked == [("unit-1", [2]), ("unit-2", [0])]
    assert runs[0] == one_of(rig, data)
