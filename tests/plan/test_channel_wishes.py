"""What the units of a rig want of a channel plan."""

import pytest

from tests.rigs import make_chain, make_chart, make_controller, make_rig, make_unit
from thruline.base.errors import CannotUse
from thruline.plan.channel_wishes import Outputs, channel_wishes, omni_off
from thruline.plan.channels import Slot

OMNI = {
    "id": "omni", "name": "OMNI", "values": ["all", "one"], "factory": "all", "where": "GLOBAL",
    "governs": "omni", "means": {"all": "on", "one": "off"},
}  # fmt: skip
CHARTS = [
    make_controller(),
    make_chart(),
    make_chart("deaf", channel=None),
    make_chart("wide", channel={"occupies": 4, "allowed": [1, 5, 9]}, receive={"note": False}),
    make_chart("all", channel={"omni": "always"}),
    make_chart("either", channel={"omni": "setting"}, setting=[OMNI]),
]


def wishes(*units, audio=None, pinned=None):
    rows = [make_unit("feet", "braeburn"), *units]
    more = {"audio": {"path": audio}} if audio else {}
    rig = make_rig(rows, make_chain(*(row["id"] for row in rows[:2])), CHARTS, **more)
    return {one.id: one for one in channel_wishes(rig, pinned or {})}


def test_only_units_that_listen_want_a_channel():
    found = wishes(make_unit("a", "bramley", channel=3), make_unit("b", "deaf"))
    assert list(found) == ["a"]
    assert found["a"].now == Slot(0, 3)
    assert found["a"].is_settled


def test_what_the_factory_left_is_not_settled():
    assert not wishes(make_unit("a", "bramley"))["a"].is_settled


def test_several_channels_and_few_to_begin_on():
    one = wishes(make_unit("a", "wide"))["a"]
    assert [slot.channel for slot in one.slots()] == [1, 5, 9]
    assert one.width == 4
    assert one.kinds == {"program changes", "control changes"} or "notes" not in one.kinds


def test_omni_counts_only_where_it_cannot_be_turned_off():
    found = wishes(make_unit("a", "all"), make_unit("b", "either"))
    assert found["a"].omni
    assert not found["b"].omni


def test_omni_is_turned_off_by_the_setting_that_says_so():
    rig = make_rig([make_unit("feet", "braeburn"), make_unit("b", "either")], (), CHARTS)
    assert omni_off(rig.units["b"]) == ("omni", "one")
    assert omni_off(rig.units["feet"]) is None


def test_the_order_of_the_sound_goes_on_from_what_is_set():
    units = [make_unit(name, "bramley") for name in "abc"]
    units[1]["channel"] = 9
    found = wishes(*units, audio=["guitar", "c", "b", "a", "amp"])
    assert [found[name].ideal.channel for name in "cba"] == [2, 9, 10]


def test_a_pin_leaves_one_slot():
    found = wishes(make_unit("a", "bramley"), pinned={"a": 7})
    assert list(found["a"].slots()) == [Slot(0, 7)]


@pytest.mark.parametrize(
    ("pinned", "says"),
    [
        ({"delya": 3}, 'no unit "delya" listens to a channel; did you mean "delay"?'),
        ({"feet": 3}, 'no unit "feet" listens'),
        ({"wide": 2}, "it can be set to 1, 5, 9"),
    ],
)
def test_a_pin_that_cannot_be(pinned, says):
    with pytest.raises(CannotUse) as trouble:
        wishes(make_unit("delay", "bramley"), make_unit("wide", "wide"), pinned=pinned)
    assert says in trouble.value.says


def on_two_outputs(**heard):
    rows = [make_unit("feet", "braeburn"), *(make_unit(name, "bramley") for name in "abc")]
    rig = make_rig(rows, make_chain("feet", "a", "b", "c"), CHARTS)
    outputs = Outputs(sockets=("one", "two"), heard=heard, over={"c": "two"})
    return {one.id: one for one in channel_wishes(rig, {}, outputs)}, outputs


def test_units_that_hear_other_outputs_share_no_line():
    found, _ = on_two_outputs(a={"one"}, b={"two"}, c={"two"})
    lines = {name: one.lines for name, one in found.items()}
    assert lines["b"] == lines["c"] != lines["a"]
    assert not any(one.hears for one in found.values())


def test_a_unit_that_hears_two_outputs_can_be_sent_over_either():
    found, outputs = on_two_outputs(a={"one"}, b={"two"}, c={"one", "two"})
    assert [outputs.socket_of(line) for line in found["c"].lines] == ["two", "one"]
    assert found["c"].hears == {*found["a"].lines, *found["b"].lines}
    assert found["c"].ideal.line == outputs.line_of("two")


def test_a_unit_that_hears_no_output_stays_with_its_part():
    found, outputs = on_two_outputs(a={"one"}, b={"two"})
    (line,) = found["c"].lines
    assert outputs.socket_of(line) is None
