"""Why each unit has its channel, in sentences."""

from tests.rigs import make_chart, make_controller, make_rig, make_unit
from thruline.plan.channel_reasons import choices, clash_words, cost_parts
from thruline.plan.channel_wishes import channel_wishes
from thruline.plan.channels import Costs, plan_channels
from thruline.plan.clash import clash

CHARTS = [
    make_controller(),
    make_chart("bramley", channel={"factory": 1}),
    make_chart("fixed", channel={"allowed": [4]}),
    make_chart("low", channel={"allowed": [1, 2, 3]}),
    make_chart("all", channel={"omni": "always"}),
    make_chart("bare", channel={}),
    make_chart("three", channel={"occupies": 3, "allowed": [15]}),
]


def rig_of(*units):
    return make_rig([make_unit("feet", "braeburn"), *units], (), CHARTS)


def told(*units, pinned=None):
    rig = rig_of(*units)
    wishes = channel_wishes(rig, pinned or {})
    plan = plan_channels(wishes)
    return {one.unit.id: one for one in choices(wishes, plan, units=rig.units, pinned=pinned or {})}


def test_what_stays_and_what_is_asked_for():
    found = told(make_unit("a", "bramley", channel=3), make_unit("b", "bramley"), pinned={"b": 9})
    assert found["a"].says == "stays as it is set"
    assert found["b"].says == "as you asked"
    assert (found["a"].changes, found["b"].changes) == (False, True)


def test_who_holds_the_channel_is_named():
    found = told(make_unit("a", "bramley", channel=4), make_unit("b", "fixed", channel=4))
    assert found["a"].says.startswith("Orchard Fixed has to have channel 4; ")


def test_a_channel_that_it_does_not_have():
    found = told(make_unit("a", "low", channel=12))
    assert found["a"].says.startswith("it cannot be set to 12; ")


def test_a_unit_that_had_none_follows_the_units_where_no_sound_is_described():
    found = told(make_unit("a", "bramley", channel=3), make_unit("b", "bare"))
    assert found["b"].was is None
    assert found["b"].says == (
        "had none; 4 is its place in the order of the units, behind Orchard Bramley"
    )


def test_a_filter_is_told():
    found = told(make_unit("a", "all"), make_unit("b", "bramley"))
    assert found["a"].wants_filter
    assert "put a filter before it" in found["a"].says


def test_the_parts_make_the_cost():
    wishes = channel_wishes(rig_of(*(make_unit(name, "bramley") for name in "abc")), {})
    plan = plan_channels(wishes)
    parts = cost_parts(wishes, plan, Costs())
    assert sum(count * each for _, count, each in parts) == plan.cost


def words(*units):
    rig = rig_of(*units)
    wishes = channel_wishes(rig, {})
    return clash_words(clash(wishes), wishes, rig.units)


def test_a_clash_in_words():
    assert words(make_unit("a", "fixed", name="A"), make_unit("b", "fixed", name="B")) == (
        "A and B need 2 channels, and all they can be set to is channel 4"
    )
    four = [make_unit(name, "low", name=name.upper()) for name in "abcd"]
    assert words(*four) == (
        "A, B, C and D need 4 channels, and all they can be set to is channels 1 to 3"
    )
    assert words(make_unit("t", "three", name="T")) == (
        "T takes 3 channels in a row and can begin on none"
    )
