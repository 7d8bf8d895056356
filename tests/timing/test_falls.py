from hypothesis import given

from tests.path.boards import Board, boards
from tests.rigs import make_cable, make_chart, make_controller, make_line, make_rig, make_unit
from tests.timing.played import control, full_chart, ground_of, program, run_over
from tests.timing.test_trail import HANDS, ITEMS
from thruline.path.stations import stations
from thruline.timing.ending import Mark
from thruline.timing.falls import falls_of
from thruline.timing.fate import Fate
from thruline.timing.sending import Item, Purpose
from thruline.timing.trail import play_sending


def falls(rig, *items):
    ground = ground_of(rig)
    run = run_over(ground, *items)
    line = stations(ground.wires, rig.controller, also=set(rig.units))
    row_of = {one.unit: place for place, one in enumerate(line)}
    return falls_of(run, play_sending(run.sending, ground), row_of)


def ends(found):
    return [(one.message, one.unit, one.end.mark, one.for_it) for one in found]


def test_a_message_falls_to_the_unit_that_it_is_for_and_no_further():
    (fall,) = falls(make_line(3, **full_chart()), program("unit-2", 2))
    assert fall.points == ((0, 0), (1, 640), (2, 1280))
    assert (fall.end.fate, fall.end.says) == (Fate.OBEYED, "obeyed")


def test_a_control_change_into_a_loading_unit_ends_in_a_cross():
    _, fall = falls(make_line(1, **full_chart()), program("unit-1", 1), control("unit-1", 1))
    assert fall.end.mark is Mark.CROSS
    assert fall.end.fate is Fate.LOST


def test_a_neighbour_that_obeys_is_told_of():
    units = [make_unit("feet", "braeburn")]
    units += [make_unit(name, "bramley", channel=1) for name in ("pre", "delay")]
    cables = [
        make_cable("feet.midi-out", "pre.midi-in"),
        make_cable("pre.midi-out", "delay.midi-in"),
    ]
    charts = [make_controller(), make_chart(**full_chart())]
    found = falls(make_rig(units, cables, charts), program("delay", 1))
    assert ends(found) == [(0, "pre", Mark.DOT, False), (0, "delay", Mark.DOT, True)]


def test_what_is_cut_off_falls_as_far_as_it_comes():
    rig = make_line(3, **full_chart(ways=("own",)))
    (fall,) = falls(rig, program("unit-3", 3))
    assert fall.points == ((0, 0), (1, 640))
    assert fall.end.mark is Mark.CROSS
    assert fall.end.says == "never arrives: Orchard Bramley MIDI OUT passes nothing on"


def test_what_cannot_be_told_is_no_cross():
    rig = make_line(2, **full_chart(ways=("own", "thru-soft"), setting=None))
    (fall,) = falls(rig, program("unit-2", 2))
    assert fall.end.mark is Mark.RING


def test_a_message_on_a_channel_that_the_unit_does_not_hear():
    (fall,) = falls(make_line(2, **full_chart()), program("unit-2", 9))
    assert fall.end.fate is Fate.OTHER_CHANNEL
    assert len(fall.points) == 3


def test_a_message_for_nobody_falls_to_the_end():
    lone = Item(data=bytes((0xC9, 0)), purpose=Purpose.PROGRAM)
    (fall,) = falls(make_line(2, **full_chart()), lone)
    assert (fall.unit, fall.end.mark, len(fall.points)) == (None, Mark.CROSS, 3)


def test_other_bytes_are_not_judged():
    raw = Item(data=bytes((0xF0, 0x7D, 0xF7)), purpose=Purpose.OTHER)
    (fall,) = falls(make_line(2, **full_chart()), raw)
    assert fall.end.mark is Mark.RING


def test_a_full_buffer_is_named():
    output = [{"socket": "midi-out", "ways": ["thru-soft"], "buffer-bytes": 3}]
    rig = make_line(2, **full_chart(output=output))
    found = falls(rig, *(control("unit-2", 2) for _ in range(2)), program("unit-2", 2))
    (lost,) = (one for one in found if one.end.fate is None)
    assert lost.end.says == "never arrives: the buffer of Orchard Bramley is full"
    assert [point.row for point in lost.points] == [0, 1]


@given(boards(), ITEMS, HANDS)
def test_no_fall_goes_back_in_time_and_all_begin_at_the_controller(board: Board, items, hand):
    rig = board.rig()
    ground = ground_of(rig, hand)
    run = run_over(ground, *items)
    line = stations(ground.wires, rig.controller, also=set(rig.units))
    row_of = {one.unit: place for place, one in enumerate(line)}
    found = falls_of(run, play_sending(run.sending, ground), row_of)
    assert {one.message for one in found} == set(range(len(items)))
    for fall in found:
        times = [point.us for point in fall.points]
        assert times == sorted(times)
        assert fall.points[0].row == 0


@given(boards(), ITEMS)
def test_just_the_good_fates_of_a_run_end_in_dots(board: Board, items):
    rig = board.rig()
    ground = ground_of(rig)
    run = run_over(ground, *items)
    row_of = {unit: place for place, unit in enumerate(rig.units)}
    found = falls_of(run, play_sending(run.sending, ground), row_of)
    good = sum(fate.is_good for one in run.receptions.values() for fate in one.fates)
    assert sum(fall.end.mark is Mark.DOT for fall in found) == good
