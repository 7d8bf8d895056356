"""What the units of a rig want of a power plan."""

from tests.rigs import make_cable, make_chart, make_controller, make_rig, make_unit, socket
from thruline.plan.power import plan_power
from thruline.plan.power_wishes import outlets_of, power_wishes
from thruline.rig.cable import Jack

POWER_IN = socket("power-in", "power-in", "barrel-2.1")
MINUS = {"polarity": "centre-negative"}


def consumer(chart="delay", **power):
    needs = {"millivolts": 9000, "milliamps": 100, "digital": True} | MINUS | power
    needs = {key.replace("_", "-"): value for key, value in needs.items() if value is not None}
    return make_chart(chart, [POWER_IN], power=needs)


def supply(chart="supply", outlets=3, **more):
    ids = [f"outlet-{number + 1}" for number in range(outlets)]
    return make_chart(
        chart,
        [socket(one, "power-out", "barrel-2.1") for one in ids],
        channel=None,
        outlet=[
            {"socket": one, "millivolts": 9000, "milliamps": 500, "isolated": True} | MINUS | more
            for one in ids
        ],
    )


CHARTS = [make_controller(), supply(), consumer(), consumer("odd", milliamps=None),
          consumer("unsure", polarity=None), consumer("quiet", digital=False)]  # fmt: skip


def lead(outlet, unit):
    return make_cable(f"supply.outlet-{outlet}", f"{unit}.power-in", "barrel-2.1/barrel-2.1")


def rig_of(*units, cables=(), charts=CHARTS):
    rows = [make_unit("feet", "braeburn"), make_unit("supply", "supply"), *units]
    return make_rig(rows, cables, charts)


def test_alike_outlets_are_one_kind():
    wishes = power_wishes(rig_of(make_unit("a", "delay")))
    assert [kind.count for kind in wishes.kinds] == [3]
    assert [one.id for one in wishes.loads] == ["a"]
    assert not wishes.loads[0].may_share


def test_what_is_not_told_is_not_planned_and_keeps_its_outlet():
    rig = rig_of(
        make_unit("a", "odd"), make_unit("b", "unsure"), make_unit("c", "quiet"),
        cables=[lead(1, "a")],
    )  # fmt: skip
    wishes = power_wishes(rig)
    assert [one.lacks for one in wishes.untold] == [
        "milliamps in chart odd",
        "polarity in chart unsure",
    ]
    assert [str(one) for one in wishes.outlets] == ["supply.outlet-2", "supply.outlet-3"]
    assert [(one.id, one.may_share) for one in wishes.loads] == [("c", True)]


def test_an_outlet_of_unknown_polarity_feeds_nobody():
    charts = [make_controller(), supply(polarity=None), consumer()]
    charts[1]["outlet"] = [{k: v for k, v in one.items() if v} for one in charts[1]["outlet"]]
    wishes = power_wishes(rig_of(make_unit("a", "delay"), charts=charts))
    assert wishes.outlets == ()
    assert wishes.untold[0].lacks == "polarity of outlet-1 in chart supply"


def test_board_and_elsewhere_are_apart_unless_asked_for():
    units = [make_unit("a", "delay", place={"x": 1, "y": 1}), make_unit("b", "delay")]
    rig = rig_of(*units)
    assert [one.zone for one in power_wishes(rig).loads] == [0, 1]
    assert {one.zone for one in power_wishes(rig, anywhere=True).loads} == {0}
    assert {one.zone for one in power_wishes(rig).kinds} == {1}


def test_each_stays_on_its_outlet_among_alike_ones():
    units = [make_unit(name, "delay") for name in "abc"]
    wishes = power_wishes(rig_of(*units, cables=[lead(3, "a"), lead(3, "b")]))
    plan = plan_power(wishes.loads, wishes.kinds, watts=wishes.watts)
    given = outlets_of(wishes, plan)
    assert set(given) == {"a", "b", "c"}
    assert len(set(given.values())) == 3
    assert Jack("supply", "outlet-3") in (given["a"], given["b"])
