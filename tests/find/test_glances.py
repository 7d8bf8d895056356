from dataclasses import replace

import pytest

from tests.find.boards import field, meant
from tests.rigs import make_cable, make_chart, make_rig, make_unit, socket
from thruline.find.glances import glances, lines_of
from thruline.path.network import read_network


def _tree(*cables):
    """Boxes behind a split box, as these cables join them."""
    outs = ["out-1", "out-2"]
    split = make_chart(
        "split",
        [socket("in", "midi-in", "din5"), *(socket(one, "midi-out", "din5") for one in outs)],
        output=[{"socket": one, "ways": ["thru-wire"]} for one in outs],
    )
    box = make_chart(
        "box",
        [socket("in", "midi-in", "din5"), socket("out", "midi-out", "din5")],
        output=[{"socket": "out", "ways": ["thru-soft"]}],
    )
    units = ("split", *"abcde")
    return read_network(
        make_rig(
            [make_unit(one, "split" if one == "split" else "box") for one in units],
            [make_cable(start, stop) for start, stop in cables],
            [split, box],
        )
    )


def test_lines_end_where_they_branch_and_pass_over_boxes_that_are_not_looked_at():
    network = _tree(
        ("a.out", "split.in"),
        ("split.out-1", "b.in"), ("b.out", "c.in"),
        ("split.out-2", "d.in"), ("d.out", "e.in"),
    )  # fmt: skip
    assert lines_of(network, tuple("abcde")) == (("a",), ("b", "c"), ("d", "e"))
    assert lines_of(network, tuple("ace")) == (("a",), ("c",), ("e",))
    assert lines_of(network, tuple("ade")) == (("a", "d", "e"),)


def test_units_that_only_feed_each_other_are_in_no_line():
    network = _tree(("a.out", "b.in"), ("b.out", "a.in"), ("c.out", "d.in"))
    assert lines_of(network, tuple("abcd")) == (("c", "d"),)


@pytest.mark.parametrize("count", [3, 6])
def test_first_all_units_then_some_of_them(count):
    whole, *some = glances(meant(count), 1)
    assert whole == tuple(f"box-{n}" for n in range(1, count + 1))
    assert len({*some}) == len(some)
    for units in some:
        assert 1 < len(units) < len(whole)
        assert list(units) == [one for one in whole if one in units]


def test_the_middle_and_the_end_of_a_line_and_both_its_halves():
    found = glances(meant(6), 1)
    assert ("box-3", "box-6") in found
    assert ("box-1", "box-2", "box-3") in found
    assert ("box-4", "box-5", "box-6") in found


def test_a_few_units_are_looked_at_in_less_time_than_all():
    whole, *some = (one for one in field(6).checks if one.trial.value == "glance")
    assert whole.asks.endswith("look along the whole board. Which units are not as they should be?")
    assert some
    for one in some:
        assert one.seconds == whole.seconds - (len(whole.units) - len(one.units))
        assert all(meant(6).rig.units[unit].name in one.asks for unit in one.units)


def test_a_press_that_changes_one_unit_is_looked_at_there_alone():
    alone = {key: goal for key, goal in meant(3).goals.items() if key[1] == "box-2"}
    assert glances(replace(meant(3), goals=alone), 1) == (("box-2",),)
