import pytest

from tests.rigs import make_adapter, make_cable, make_chart, make_controller, make_rig, make_unit
from thruline.rig.whole import Lack

UNITS = [
    make_unit("feet", "braeburn"),
    make_unit("delay", "bramley"),
    make_unit("drive", "bramley"),
]
LOOPS = [{"id": "loop-1", "send": "s", "return": "r"}]


def with_cable(start="feet.midi-out", stop="delay.midi-in", ends="din5/din5", **more):
    return make_rig(UNITS, [make_cable(start, stop, ends, **more)])


def test_a_cable():
    (cable,) = with_cable().cables
    assert (str(cable.start), str(cable.stop)) == ("feet.midi-out", "delay.midi-in")
    assert (cable.plugs, cable.length, cable.wiring) == (("din5", "din5"), 300, "straight")
    assert dict(cable.joins)["4"] == "4"


def test_a_cable_of_special_wiring():
    (cable,) = with_cable(wiring={"4": "5"}).cables
    assert (cable.joins, cable.wiring) == ((("4", "5"),), "special")


@pytest.mark.parametrize(
    ("cable", "lack", "key", "nearest", "instead"),
    [
        ({"start": "feat.midi-out"}, Lack.UNIT, "from", "feet", "feet.midi-out"),
        ({"start": "feat.midi-uot"}, Lack.UNIT, "from", None, None),
        ({"stop": "delay.midi-inn"}, Lack.SOCKET, "to", "midi-in", "delay.midi-in"),
        ({"ends": "dim5/din5"}, Lack.PLUG, "ends", "din5", "din5/din5"),
        ({"ends": "din5/usb-c"}, Lack.WIRING, "wiring", None, None),
    ],
)
def test_cables_that_cannot_be(cable, lack, key, nearest, instead):
    rig = with_cable(**cable)
    assert rig.cables == ()
    (gap,) = rig.unresolved
    assert (gap.lack, gap.nearest, gap.instead) == (lack, nearest, instead)
    assert str(gap.address).endswith(f".{key}")


def test_two_cables_between_the_same_sockets_are_told_apart():
    rig = make_rig(UNITS, [make_cable("feet.midi-out", "delay.midi-in")] * 2)
    assert [str(cable.address) for cable in rig.cables] == [
        "cable[feet.midi-out>delay.midi-in]",
        "cable[feet.midi-out>delay.midi-in#2]",
    ]


def with_path(*path):
    charts = [make_controller(loop=LOOPS), make_chart()]
    return make_rig(UNITS, charts=charts, audio={"path": list(path)})


def test_the_path_of_the_sound():
    rig = with_path("guitar", "feet.loop-1[drive]", "delay", "amp")
    assert rig.unresolved == ()
    assert rig.audio is not None
    assert rig.audio.units == ("drive", "delay")
    assert rig.audio.loop_of("drive") == ("feet", "loop-1")
    assert rig.audio.loop_of("delay") is None


def test_several_units_in_one_loop():
    rig = with_path("guitar", "feet.loop-1[drive, delay]", "amp")
    assert rig.audio is not None
    assert rig.audio.stages[1].inside == ("drive", "delay")


@pytest.mark.parametrize(
    ("stage", "lack", "nearest", "instead"),
    [
        ("dealy", Lack.UNIT, "delay", "delay"),
        ("feet.loop-7[drive]", Lack.LOOP, "loop-1", "feet.loop-1[drive]"),
        ("feat.loop-1[drive]", Lack.UNIT, "feet", "feet.loop-1[drive]"),
        ("feet.loop-1[drve]", Lack.UNIT, "drive", "feet.loop-1[drive]"),
        ("feet.loop-1[feat, feat]", Lack.UNIT, "feet", None),
    ],
)
def test_a_path_through_what_is_not_there(stage, lack, nearest, instead):
    rig = with_path("guitar", stage, "amp")
    gap = rig.unresolved[0]
    assert (gap.lack, gap.nearest, str(gap.address)) == (lack, nearest, "audio.path[#2]")
    assert gap.instead == instead


def test_no_path_is_no_path():
    assert make_rig(UNITS).audio is None


def test_an_adapter_has_sockets_too():
    charts = [make_controller(), make_adapter("spartan", {"4": "ring", "5": "tip"})]
    units = [make_unit("feet", "braeburn"), make_unit("adapter", "spartan")]
    rig = make_rig(units, [make_cable("feet.midi-out", "adapter.a")], charts)
    assert rig.unresolved == ()
