"""What the demonstration rig shows, beyond being right."""

from itertools import pairwise

from tests.samples.reading import ORCHARD, rig
from thruline.rig.programs import WireProgram
from thruline.rig.unit import sends, takes_clock
from thruline.rig.values import ControlMessage

RIG = rig(ORCHARD)


def goal(number: int, unit_id: str):
    preset = RIG.preset(number)
    assert preset is not None
    found = preset.goal_for(unit_id)
    assert found is not None
    return found


def test_it_is_large_enough_to_be_worth_a_tool():
    assert len(RIG.units) >= 12
    assert len(RIG.presets) == 24
    assert len(RIG.sweeps) == 3
    assert len(RIG.songs) >= 10


def test_it_has_one_of_everything_that_the_pit_needs():
    kinds = {unit.chart.kind for unit in RIG.units.values()}
    assert kinds >= {
        "foot controller", "expression pedal", "drive", "preamp", "delay", "reverb", "modulation",
        "pitch shifter", "looper", "lighting box", "amplifier switch", "MIDI split", "level",
        "power supply",
    }  # fmt: skip


def test_some_programs_need_the_second_midi_bank():
    banks = {goal(preset.number, "delay").program.wire.bank for preset in RIG.presets}
    assert banks == {0, 1}
    assert goal(3, "delay").program.label == "11B"
    assert goal(3, "delay").program.wire == WireProgram(0, 51)


def test_values_are_written_in_every_way_that_there_is():
    controls = [one for preset in RIG.presets for wanted in preset.goals for one in wanted.controls]
    written = {one.value.written for one in controls}
    assert any(text.endswith("%") for text in written)
    assert any(text.endswith("ms") for text in written)
    assert any(text.endswith("dB") for text in written)
    assert {"30", "dotted eighth"} <= written
    assert any(one.control.message is ControlMessage.CC14 for one in controls)


def test_there_is_one_clock_and_four_follow_it():
    assert [unit.id for unit in RIG.units.values() if sends(unit, "clock")] == ["feet"]
    followers = {unit.id for unit in RIG.units.values() if takes_clock(unit)}
    assert followers == {"delay", "echo", "mod", "looper"}


def test_a_bend_is_heard():
    bend = next(sweep for sweep in RIG.sweeps if sweep.name == "Bend")
    assert all(goal(number, "pitch").in_loop for number in bend.presets)


def test_sound_cables_go_as_the_path_says():
    assert RIG.audio is not None
    starts = {str(cable.stop): str(cable.start) for cable in RIG.cables}
    loops = RIG.units["feet"].chart.loops
    for stage in RIG.audio.stages:
        if stage.loop is not None:
            (inside,) = stage.inside
            assert starts[f"{inside}.input"] == f"feet.{loops[stage.loop].send}"
            assert starts[f"feet.{loops[stage.loop].back}"] == f"{inside}.output"
    behind = [stage.unit for stage in RIG.audio.stages if stage.unit and not stage.loop]
    assert starts[f"{behind[0]}.input"] == "feet.output"
    for before, after in pairwise(behind):
        assert starts[f"{after}.input"] == f"{before}.output"
