from thruline.rig.preset import Goal, Preset

GOAL = Goal(unit="delay", in_loop=True)
PRESET = Preset(number=12, name="Balcony", goals=(GOAL,))


def test_a_preset_is_called_by_number_and_name():
    assert PRESET.title == '12 "Balcony"'


def test_its_address_tells_twins_apart():
    assert str(PRESET.address) == "preset[12]"
    twin = Preset(number=12, name="Balcony", goals=(), occurrence=2)
    assert str(twin.address) == "preset[12#2]"


def test_what_it_wants_of_a_unit():
    assert PRESET.goal_for("delay") is GOAL
    assert PRESET.goal_for("reverb") is None


def test_where_a_part_of_a_goal_is_written():
    assert str(PRESET.address_of(GOAL, "loop")) == "preset[12].delay.loop"
    assert str(PRESET.address_of(Goal(unit="delay", bare=True), "program")) == "preset[12].delay"
