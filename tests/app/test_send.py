import pytest

from tests.opening import open_text
from tests.routed import case_of_two_lines
from tests.samples.reading import AS_FOUND, ORCHARD
from thruline.app.send import channels_in_use, pick_sweep, preset_step, unit_steps
from thruline.base.errors import CannotUse
from thruline.proof.case import Case
from thruline.proof.example_boards import a_sweep
from thruline.wiring import open_file


@pytest.fixture(scope="module")
def case():
    return Case(open_file(ORCHARD).rig)


def test_every_preset_of_a_good_board_is_obeyed_whole_and_unit_by_unit(case):
    for preset in case.rig.presets:
        whole = preset_step(case, preset.number)
        steps = list(unit_steps(case, preset.number))
        assert not [one.says for step in (whole, *steps) for one in step.shows if one.trouble]
        assert sorted(one.data for one in whole.messages) == sorted(
            one.data for step in steps for one in step.messages
        )
        shown = {one.unit.id: (one.program, dict(one.controls)) for one in whole.shows}
        for step in steps:
            assert {
                one.unit.id: (one.program, dict(one.controls)) for one in step.shows
            }.items() <= (shown.items())


def test_what_a_unit_does_not_hear_is_told():
    case = Case(open_file(AS_FOUND).rig)
    said = [
        one.says
        for preset in case.rig.presets
        for one in preset_step(case, preset.number).shows
        if one.trouble
    ]
    assert any("it does not hear this" in one for one in said)


def test_what_cannot_be_sent(case):
    with pytest.raises(CannotUse, match="there is no preset 99"):
        preset_step(case, 99)
    with pytest.raises(CannotUse, match="did you mean"):
        pick_sweep(case, case.rig.sweeps[0].name + "x")
    empty = Case(
        open_text(
            '[[unit]]\nid = "feet"\nchart = "braeburn-six"\n[[preset]]\nnumber = 1\nname = "x"\n'
        ).rig
    )
    with pytest.raises(CannotUse, match="sends nothing"):
        preset_step(empty, 1)
    with pytest.raises(CannotUse, match="has no sweeps"):
        pick_sweep(empty, "Swell")
    assert pick_sweep(case, case.rig.sweeps[0].name.upper()) is case.rig.sweeps[0]


def test_channels_in_use(case):
    assert channels_in_use(case) == {2, 3, 4, 5, 6, 7, 8, 9, 10, 11}


SWELL = a_sweep(
    "Swell",
    'unit = "delay", control = "mix", heel = 0, toe = 127',
    'unit = "echo", control = "mix", heel = 127, toe = 0',
)


def test_a_port_stands_for_one_output_of_a_controller_that_chooses():
    case = case_of_two_lines(SWELL)
    whole = case.run(case.rig.presets[0]).sending.items
    parts = {"midi-out-1": "delay", "midi-out-2": "echo"}
    found = {over: preset_step(case, 1, overs=[over]) for over in parts}
    for over, unit in parts.items():
        own = [item.data for item in whole if item.unit == unit]
        assert [one.data for one in found[over].messages] == own
        assert [one.unit.id for one in found[over].shows] == [unit]
        assert not found[over].shows[0].trouble
        assert len(found[over].meanings) == len(own)
        assert [one.unit for one in pick_sweep(case, "Swell", overs=[over]).moves] == [unit]
        assert [s.shows[0].unit.id for s in unit_steps(case, 1, overs=[over])] == [unit]
    ends = sorted(one.at_us for step in found.values() for one in step.messages)
    assert len(set(ends)) == len(whole), "each keeps its place in the controller's own list"


def test_messages_of_two_outputs_are_not_merged_where_a_channel_is_used_twice():
    case = case_of_two_lines(SWELL)
    for ask in (
        lambda: preset_step(case, 1),
        lambda: list(unit_steps(case, 1)),
        lambda: pick_sweep(case, "Swell"),
    ):
        with pytest.raises(CannotUse, match="channel 3 is used on midi-out-1 and on midi-out-2"):
            ask()
    with pytest.raises(CannotUse, match="it chooses from midi-out-1, midi-out-2"):
        preset_step(case, 1, overs=["midi-out-3"])
    alike = case_of_two_lines(controller="braeburn-six")
    with pytest.raises(CannotUse, match="everything over each of its outputs"):
        preset_step(alike, 1, overs=["midi-out-1"])
