"""The tasks of a work order in trade words."""

import pytest

from tests.app.test_compare import EDITS, FOUND, MEANT, changed
from thruline.app.compare import compare
from thruline.app.compare_words import details, task_words
from thruline.base.address import read_address
from thruline.base.edit import set_to

RIG = MEANT.rig
WAS_TO_IS = "560 mm from the left, 20 mm from the back to 570 mm from the left, 20 mm from the back"


def told(old, new):
    found = compare(old, new)
    return [(task_words(task, old.rig, new.rig), details(task, new.rig)) for task in found.tasks]


@pytest.mark.parametrize(
    ("edit", "says", "rows"),
    [
        (EDITS[1], "set Egremont Preamp", ["MIDI Out out (was thru), GLOBAL > MIDI > OUT MODE"]),
        (EDITS[2], "move Fiesta Modulation", [WAS_TO_IS]),
        (EDITS[4], 'give preset 9 "Roof" its new name', ["- name Rooftop", "+ name Roof"]),
        (EDITS[5], "enter pedal Braeburn Six EXP 1 on presets 11, 12, 17, 22",
         ["it moves nothing there any more"]),
        (EDITS[6], "make another cable from Braeburn Six MIDI OUT 2 to Cox Split Four IN", [
            "was din5/din5, 600 mm, contacts 1-1, 2-2, 3-3, 4-4, 5-5",
            "din5/din5, 700 mm, contacts 1-1, 2-2, 3-3, 4-4, 5-5"]),
        (EDITS[7], "take away the cable between Laxton Echo THRU and Jonagold Looper MIDI IN", []),
    ],
)  # fmt: skip
def test_a_task_says_what_and_how(edit, says, rows):
    assert (says, rows) in told(MEANT, changed([edit]))


def test_a_pedal_is_told_with_the_points_of_its_curve():
    curve = read_address("sweep[Swell].moves[delay>mix].curve")
    old, new = (changed([set_to(curve, [[0, 0], [70, by], [100, 100]])]) for by in (20, 30))
    rows = [
        row for words, rows in told(old, new) if words.startswith("enter pedal") for row in rows
    ]
    assert any(row.endswith("curve points 0/0 70/30 100/100") for row in rows)


def test_there_and_back_again():
    without = changed([EDITS[8], EDITS[9], EDITS[10]])
    there = dict(told(MEANT, without))
    assert f"clear preset {RIG.presets[-1].title}" in there
    assert "take Winston Level off the board" in there
    assert there["print the stage sheets anew"] == ["out: Lantern song"]
    back = dict(told(without, MEANT))
    assert "put Winston Level on the board" in back
    new = back[f"enter preset {RIG.presets[-1].title}, which is new"]
    assert new[0] == f"name {RIG.presets[-1].name}"
    assert any(row.startswith("3: program ") for row in new)


def test_a_replugged_cable_names_both_ends():
    says = [words for words, _ in told(FOUND, MEANT) if " goes between " in words]
    assert says[0] == (
        "the cable between Elstar Twelve 10 and Fiesta Modulation power-in goes between "
        "Elstar Twelve 5 and Fiesta Modulation power-in"
    )
