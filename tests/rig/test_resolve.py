import pytest

from tests.rigs import make_chart, make_controller, make_rig, make_unit, rig_of
from thruline.rig.chart import Footprint
from thruline.rig.unit import Place
from thruline.rig.whole import Lack

CHARTS = [make_controller(), make_chart(ways=["own", "merge"])]


def gaps(rig):
    return [(one.lack, str(one.address), one.nearest) for one in rig.unresolved]


def test_a_unit_in_full():
    unit = make_unit(
        "delay", "bramley", channel=3, name="The delay", place={"x": 5, "y": 6, "turn": 90}
    ) | {"sent-on": 4}
    rig = make_rig([make_unit("feet", "braeburn"), unit])
    one = rig.units["delay"]
    assert (one.name, one.order, one.place) == ("The delay", 1, Place(5, 6, 90))
    assert (one.channel, one.sent_on) == (3, 4)
    assert rig.units["feet"].name == "Orchard Braeburn"
    assert rig.controller is rig.units["feet"]
    assert rig.unresolved == ()


@pytest.mark.parametrize(
    ("settings", "lack", "where", "nearest", "instead"),
    [
        ({"midi-uot": "own"}, Lack.SETTING, "unit[delay].settings.midi-uot", "midi-out", None),
        ({"midi-out": "mege"},
         Lack.SETTING_VALUE, "unit[delay].settings.midi-out", "merge", "merge"),
    ],
)  # fmt: skip
def test_settings_that_are_not_there(settings, lack, where, nearest, instead):
    rig = make_rig([make_unit("delay", "bramley", settings=settings)], charts=CHARTS)
    assert gaps(rig) == [(lack, where, nearest)]
    assert rig.units["delay"].settings == {"midi-out": "own"}
    assert "did you mean" in rig.unresolved[0].says
    assert rig.unresolved[0].instead == instead


def test_of_two_units_of_one_id_the_first_counts():
    units = [make_unit("feet", "braeburn"), make_unit("delay", "bramley", channel=3)]
    twin = make_unit("delay", "bramley", channel=4, settings={"mode": "x"})
    rig = make_rig([*units, twin])
    assert gaps(rig) == [
        (Lack.SETTING, "unit[delay#2].settings.mode", None),
        (Lack.UNIT, "unit[delay#2]", None),
    ]
    assert (rig.units["delay"].channel, rig.units["delay"].order) == (3, 1)


@pytest.mark.parametrize("unit_id", ["number", "name", "about", "messages"])
def test_a_unit_cannot_be_called_as_a_key_of_a_preset(unit_id):
    rig = make_rig([make_unit("feet", "braeburn"), make_unit(unit_id, "bramley")])
    assert gaps(rig) == [(Lack.UNIT, f"unit[{unit_id}]", None)]


def test_a_controller_that_is_not_there():
    head = {"name": "x", "controller": "feat"}
    rig = rig_of({"rig": head, "unit": [make_unit("feet", "braeburn")]}, CHARTS)
    assert rig.controller is None
    assert gaps(rig) == [(Lack.UNIT, "rig.controller", "feet")]


def test_the_whole():
    head = {
        "name": "x", "controller": "feet", "about": "y", "board": {"width": 100, "depth": 50},
        "slowest-change-ms": 80,
    }  # fmt: skip
    accept = [{"finding": "sound.x at unit[feet]", "reason": "it is so"}]
    preset = [{"number": 3, "name": "a"}, {"number": 3, "name": "b"}]
    units = [make_unit("feet", "braeburn")]
    rig = rig_of({"rig": head, "unit": units, "accept": accept, "preset": preset}, CHARTS)
    assert (rig.about, rig.board, rig.slowest_change_us) == ("y", Footprint(100, 50, 50), 80_000)
    assert rig.acceptances[0].reason == "it is so"
    assert str(rig.acceptances[0].address).startswith("accept[sound.x at unit")
    first = rig.preset(3)
    assert first is not None
    assert first.name == "a"
    assert rig.preset(4) is None


def test_what_is_accepted_twice_is_told_apart():
    accept = [{"finding": "sound.x", "reason": "it is so"}] * 2
    rig = rig_of({"unit": [make_unit("feet", "braeburn")], "accept": accept}, CHARTS)
    assert [str(one.address) for one in rig.acceptances] == ["accept[sound.x]", "accept[sound.x#2]"]


def test_a_missing_chart_is_a_mistake_of_the_caller():
    with pytest.raises(KeyError):
        make_rig([make_unit("feet", "russet")])
