"""Which cables to make."""

import pytest

from tests.rigs import (
    make_cable,
    make_chart,
    make_controller,
    make_rig,
    make_unit,
    midi_in,
    midi_out,
)
from thruline.plan.cables import LOOSE, Wish, plan_cables
from thruline.plan.routes import Leaves

SIZE = {"width": 100, "depth": 100, "height": 50}
BACK = {"side": "back", "along": 50}
FRONT = {"side": "front", "along": 50}
CHARTS = [
    make_controller(sockets=[midi_out(place=BACK)], size=SIZE),
    make_chart("bramley", [midi_in(place=BACK), midi_out(place=FRONT)], size=SIZE),
    make_chart("bare", [midi_in()]),
]


def planned(*cables, places, wish=None, chart="bramley"):
    units = [
        make_unit(name, "braeburn" if name == "feet" else chart,
                  **({"place": place} if place else {}))
        for name, place in places.items()
    ]  # fmt: skip
    return plan_cables(make_rig(units, cables, CHARTS), wish or Wish())


SIDE_BY_SIDE = {"feet": {"x": 0, "y": 200}, "delay": {"x": 400, "y": 200}}
BEHIND = {"feet": {"x": 0, "y": 200}, "delay": {"x": 0, "y": 60}}  # 40 mm between the two


def test_a_cable_reaches_with_slack_and_is_rounded_up():
    one = planned(make_cable("feet.midi-out", "delay.midi-in", length=None), places=SIDE_BY_SIDE)[0]
    assert one.is_made
    assert one.runs >= 400
    assert one.length >= one.runs * 1.1 + LOOSE
    assert one.length % 50 == 0
    assert one.length - (one.runs * 1.1 + LOOSE) < 50
    assert one.says == ("its length was not written",)
    assert one.ends == ("din5", "din5")


@pytest.mark.parametrize(
    ("length", "is_made", "says"),
    [
        (300, True, "300 mm was written, and it does not reach"),
        (620, True, "620 mm was written, and it would be tight"),
        (900, False, ""),
        (5000, False, "of it are to be coiled"),
    ],
)
def test_what_is_long_enough_stays(length, is_made, says):
    cable = make_cable("feet.midi-out", "delay.midi-in", length=length)
    one = planned(cable, places=SIDE_BY_SIDE)[0]
    assert one.is_made is is_made
    assert says in "; ".join(one.says)
    assert one.length == length or is_made
    assert planned(cable, places=SIDE_BY_SIDE, wish=Wish(remake=True))[0].is_made


def test_an_angled_plug_where_there_is_no_room_for_a_straight_one():
    one = planned(make_cable("feet.midi-out", "delay.midi-in"), places=BEHIND)[0]
    assert one.leaves[0] in (Leaves.LEFT, Leaves.RIGHT)
    assert one.leaves[1] is Leaves.STRAIGHT
    assert one.ends[0] == f"din5 {one.leaves[0]}"


def test_no_room_at_all_is_told():
    tight = {"feet": {"x": 0, "y": 200}, "delay": {"x": 0, "y": 90}}
    one = planned(make_cable("feet.midi-out", "delay.midi-in"), places=tight)[0]
    assert "there is no room for a din5 plug at feet.midi-out: move a unit" in one.says
    assert one.runs is not None


def test_what_has_no_place_keeps_its_length_or_has_none():
    places = {"feet": {"x": 0, "y": 0}, "delay": None}
    kept, none = planned(
        make_cable("feet.midi-out", "delay.midi-in", length=700),
        make_cable("feet.midi-out", "delay.midi-in", length=None),
        places=places,
    )
    assert (kept.length, kept.is_made, kept.runs) == (700, False, None)
    assert (none.length, none.is_made) == (None, False)
    assert "Orchard Bramley has no place on the board" in none.says[0]


def test_a_chart_without_sizes_is_named():
    places = {"feet": {"x": 0, "y": 0}, "delay": {"x": 300, "y": 0}}
    cable = make_cable("feet.midi-out", "delay.midi-in")
    assert "chart bare gives no size" in planned(cable, places=places, chart="bare")[0].says[0]


def test_too_long_for_its_kind_is_told():
    far = {"feet": {"x": 0, "y": 0}, "delay": {"x": 5000, "y": 5000}}
    cable = make_cable("feet.midi-out", "delay.midi-in", length=16_000)
    assert any("the most for this kind" in one for one in planned(cable, places=far)[0].says)


def test_cables_are_numbered_by_kind():
    cables = [make_cable("feet.midi-out", "delay.midi-in")] * 2
    assert [one.number for one in planned(*cables, places=SIDE_BY_SIDE)] == ["M1", "M2"]


def test_lengths_that_are_sold():
    cable = make_cable("feet.midi-out", "delay.midi-in", length=None)
    assert planned(cable, places=SIDE_BY_SIDE, wish=Wish(sold=True))[0].length in (600, 900)
