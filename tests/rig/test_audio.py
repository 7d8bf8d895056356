from thruline.rig.audio import Audio, Stage

PATH = Audio(
    (
        Stage("guitar", None),
        Stage("feet.loop-1[drive, fuzz]", "feet", "loop-1", ("drive", "fuzz")),
        Stage("feet.loop-2[]", "feet", "loop-2"),
        Stage("delay", "delay"),
        Stage("amp", None),
    )
)


def test_units_in_the_order_the_sound_meets_them():
    assert PATH.units == ("drive", "fuzz", "delay")


def test_a_unit_hangs_in_a_loop_or_not():
    assert PATH.loop_of("fuzz") == ("feet", "loop-1")
    assert PATH.loop_of("delay") is None
    assert PATH.loop_of("feet") is None
