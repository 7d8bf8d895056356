from tests.rigs import make_chain, make_chart, make_controller, make_rig, make_unit
from tests.timing.played import ground_of, run_over
from thruline.compose.goals import wanted_of
from thruline.compose.meaning import meanings
from thruline.compose.stored import stored_sending
from thruline.timing.sending import Item, Purpose, Sending

CONTROLS = [
    {"id": "mix", "name": "Mix", "number": 14, "scale": {"unit": "%", "low": 0, "high": 100}},
    {"id": "time", "name": "Time", "number": 5, "message": "cc14", "high": 16383},
    {"id": "deep", "name": "Deep", "number": 300, "message": "nrpn", "high": 16383},
]


def rig_with(*, messages=None, **goal):
    programs = {"slots": {"count": 26, "first": "A"}, "banks": {"count": 10, "first": 1}}
    chart = make_chart(programs=programs | {"bank-select": "both"}, control=CONTROLS)
    preset = {"number": 1, "name": "Cue"} | ({"delay": goal} if goal else {})
    if messages is not None:
        preset["messages"] = list(messages)
    units = [make_unit("feet", "braeburn"), make_unit("delay", "bramley", channel=3, name="Delay")]
    charts = [make_controller(), chart]
    return make_rig(units, make_chain("feet", "delay"), charts, preset=[preset])


def told(rig):
    preset = rig.presets[0]
    if preset.stored is not None:
        items = stored_sending(preset.stored, rig.units).items
    else:
        wanted = wanted_of(rig, preset)
        items = [item for one in wanted for part in (one.head, *one.groups) for item in part]
    run = run_over(ground_of(rig), *items)
    return meanings(rig, preset, run)


def test_a_control_in_three_forms():
    (mix,) = told(rig_with(mix="50%"))
    assert mix.says == "Delay: Mix 50 %"
    assert (mix.written, mix.wire, mix.shown, mix.as_wanted) == ("50%", 64, "50 %", True)
    assert mix.raw == "channel 3: control 14 = 64"


def test_a_program_in_three_forms_behind_its_bank():
    coarse, fine, program = told(rig_with(program="6C"))
    assert (coarse.says, fine.says) == ("Delay: bank 0 (coarse)", "Delay: bank 1 (fine)")
    assert (coarse.written, coarse.wire) == ("6C", 0)
    assert (program.says, program.written, program.shown) == ("Delay: program 6C", "6C", "6C")
    assert program.as_wanted is True


def test_parts_of_a_pair_and_of_a_parameter_are_told_apart():
    says = [one.says for one in told(rig_with(time=1000, deep=300))]
    assert says == [
        "Delay: Time 1000 (coarse)",
        "Delay: Time 1000 (fine)",
        "Delay: Deep 300 (select, coarse)",
        "Delay: Deep 300 (select, fine)",
        "Delay: Deep 300 (value, coarse)",
        "Delay: Deep 300 (value, fine)",
        "Delay: Deep 300 (closed again)",
        "Delay: Deep 300 (closed again)",
    ]


def test_what_the_memory_holds_is_held_against_the_goal():
    rig = rig_with(messages=["3: control 14 = 10", "3: program 0"], mix="50%", program="1B")
    mix, program = told(rig)
    assert (mix.written, mix.wire, mix.shown, mix.as_wanted) == ("50%", 10, "8 %", False)
    assert (program.written, program.shown, program.as_wanted) == ("1B", "1A", False)


def test_without_a_goal_nothing_is_wanted():
    (mix,) = told(rig_with(messages=["3: control 14 = 10"]))
    assert (mix.written, mix.as_wanted) == ("", None)


def test_messages_for_nobody_and_other_bytes_stay_as_they_are():
    rig = rig_with(messages=["9: program 1", "bytes F0 7D 01 F7", "3: control 99 = 1"])
    nobody, raw, unknown = told(rig)
    assert nobody.says == nobody.raw == "channel 9: program change 1"
    assert raw.says.startswith("system exclusive")
    assert unknown.says == "Delay: channel 3: control 99 = 1"


def test_half_a_message_is_told_as_bytes():
    rig = rig_with()
    run = run_over(ground_of(rig))
    half = Item(data=bytes((0xF4,)), purpose=Purpose.OTHER)
    odd = type(run)(sending=Sending((half,)), heard={}, receptions={}, lost=())
    assert [one.says for one in meanings(rig, rig.presets[0], odd)] == ["bytes F4"]
