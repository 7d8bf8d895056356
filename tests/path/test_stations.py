from hypothesis import given

from tests.path.boards import Board, boards
from tests.rigs import (
    make_box,
    make_cable,
    make_chain,
    make_chart,
    make_controller,
    make_line,
    make_rig,
    make_unit,
    midi_out,
)
from thruline.path.hearing import Heard, read_hearing
from thruline.path.network import read_network
from thruline.path.stations import stations


def line_of(rig, **more):
    return stations(read_network(rig), rig.controller, **more)


def told(line):
    """Each station as unit, lane and the unit above it."""
    return [
        (one.unit, one.lane, None if one.above is None else line[one.above].unit) for one in line
    ]


def make_star():
    """Two outputs of the controller: one to `pre` and `delay`, one to a split with two units."""
    feet = make_controller(sockets=[midi_out("out-1"), midi_out("out-2")])
    names = {"pre": 1, "delay": 2, "reverb": 3, "lights": 4}
    units = [make_unit("feet", "braeburn"), make_unit("split", "split")]
    units += [make_unit(name, "bramley", channel=channel) for name, channel in names.items()]
    cables = [
        make_cable("feet.out-2", "split.in-1"),
        make_cable("feet.out-1", "pre.midi-in"),
        *make_chain("pre", "delay"),
        make_cable("split.out-2", "lights.midi-in"),
        make_cable("split.out-1", "reverb.midi-in"),
    ]
    return make_rig(units, cables, [feet, make_chart(), make_box("split", 1, 2)])


def test_a_plain_line_is_one_lane():
    line = line_of(make_line(3))
    assert told(line) == [
        ("feet", 0, None), ("unit-1", 0, "feet"), ("unit-2", 0, "unit-1"), ("unit-3", 0, "unit-2"),
    ]  # fmt: skip
    assert all(one.reached for one in line)


def test_branches_come_in_the_order_of_the_sockets_each_in_one_piece():
    line = line_of(make_star())
    assert told(line) == [
        ("feet", 0, None), ("pre", 1, "feet"), ("delay", 1, "pre"),
        ("split", 0, "feet"), ("reverb", 1, "split"), ("lights", 0, "split"),
    ]  # fmt: skip
    assert [one.line for one in line] == [0, 0, 0, 1, 1, 1]


def test_what_is_behind_a_cut_is_not_reached():
    rig = make_line(3, ways=("own", "thru-soft"))
    line = line_of(rig)
    assert [(one.unit, one.reached) for one in line] == [
        ("feet", True), ("unit-1", True), ("unit-2", False), ("unit-3", False),
    ]  # fmt: skip


def test_a_cable_between_two_outputs_shows_what_was_meant():
    units = [make_unit("feet", "braeburn"), make_unit("pre", "bramley")]
    line = line_of(make_rig(units, [make_cable("feet.midi-out", "pre.midi-out")]))
    assert [(one.unit, one.reached, one.above) for one in line] == [
        ("feet", True, None), ("pre", False, 0),
    ]  # fmt: skip


def test_units_without_a_cable_come_last_if_asked_for():
    units = [make_unit("feet", "braeburn"), make_unit("lonely", "bramley")]
    rig = make_rig(units)
    assert [one.unit for one in line_of(rig)] == ["feet"]
    assert told(line_of(rig, also={"lonely"}))[-1] == ("lonely", 0, None)


def test_a_merge_stands_below_both_that_feed_it():
    charts = [make_controller(), make_chart(), make_box("split", 1, 2)]
    charts.append(make_box("merge", 2, 1, way="merge"))
    units = [
        make_unit("feet", "braeburn"),
        make_unit("merge", "merge"),
        make_unit("split", "split"),
    ]
    units += [make_unit("a", "bramley"), make_unit("b", "bramley", channel=2)]
    cables = [
        make_cable("feet.midi-out", "split.in-1"),
        make_cable("split.out-1", "a.midi-in"),
        make_cable("split.out-2", "b.midi-in"),
        make_cable("a.midi-out", "merge.in-1"),
        make_cable("b.midi-out", "merge.in-2"),
    ]
    line = line_of(make_rig(units, cables, charts))
    assert [one.unit for one in line] == ["feet", "split", "a", "b", "merge"]
    assert (line[4].above, line[4].joins) == (3, (2,))


@given(boards())
def test_every_unit_once_and_below_what_feeds_it(board: Board):
    rig = board.rig()
    network = read_network(rig)
    line = stations(network, rig.controller)
    assert len({one.unit for one in line}) == len(line)
    for place, one in enumerate(line):
        assert one.above is None or one.above < place
        assert all(join < place for join in one.joins)
        assert 0 <= one.lane < len(line)


@given(boards())
def test_reached_is_what_surely_hears(board: Board):
    rig = board.rig()
    network = read_network(rig)
    hearing = read_hearing(network)
    reached = {one.unit for one in stations(network, rig.controller) if one.reached}
    for unit in rig.units:
        if unit != rig.controller.id:
            hears = hearing.hears(rig.controller.id, unit) is Heard.YES
            assert (unit in reached) == hears


@given(boards(most_units=6))
def test_a_branch_keeps_off_the_lanes_that_pass_it(board: Board):
    """The rail from a station to a later branch of it passes no other station."""
    rig = board.rig()
    line = stations(read_network(rig), rig.controller)
    for place, one in enumerate(line):
        if one.above is not None:
            lane = line[one.above].lane
            assert all(between.lane > lane for between in line[one.above + 1 : place])
