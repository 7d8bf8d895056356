"""A rig after an edit is made of the same objects as before."""

from dataclasses import replace

from tests.opening import open_text
from thruline.app.load import open_again
from thruline.base.address import read_address
from thruline.base.edit import set_to
from thruline.document.change import apply_to
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.rig.resolve import resolve
from thruline.rig.sharing import sharing

RIG = board(
    DELAY,
    TO_DELAY,
    a_preset(1, "Overture", 'delay = { program = "2A", mix = 64 }'),
    a_preset(2, "Balcony", 'delay = { program = "2B" }'),
).rig


def test_an_edit_of_one_preset_keeps_everything_else() -> None:
    opened = open_text(RIG)
    edit = set_to(read_address("preset[1].delay.mix"), 20)
    rig = open_again(opened, apply_to(opened.document, [edit])).rig
    assert all(rig.units[name] is unit for name, unit in opened.rig.units.items())
    assert rig.presets[1] is opened.rig.presets[1]
    assert rig.presets[0] != opened.rig.presets[0]
    assert rig.controller is opened.rig.controller


def test_an_edit_of_one_unit_keeps_the_presets() -> None:
    opened = open_text(RIG)
    edit = set_to(read_address("unit[delay].channel"), 5)
    rig = open_again(opened, apply_to(opened.document, [edit])).rig
    assert rig.presets[0] is opened.rig.presets[0]
    assert rig.units["delay"].channel == 5
    assert rig.units["feet"] is opened.rig.units["feet"]


def test_a_goal_that_stays_is_the_same_object() -> None:
    opened = open_text(RIG)
    edit = set_to(read_address("preset[1].name"), "Prologue")
    rig = open_again(opened, apply_to(opened.document, [edit])).rig
    assert rig.presets[0].goals[0] is opened.rig.presets[0].goals[0]


def test_it_is_equal_to_the_rig_without_sharing() -> None:
    opened = open_text(RIG)
    alone = resolve(opened.document.shape, opened.charts)
    shared = sharing(alone, replace(opened.rig, presets=()))
    assert shared.presets == alone.presets
    assert shared.units == alone.units
