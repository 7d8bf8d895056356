"""Two revisions as a work order, proved by carrying it out."""

import random

import pytest

from tests.opening import open_text
from thruline.app.compare import compare, compare_json, compare_sections
from thruline.app.load import open_again
from thruline.base.address import read_address
from thruline.base.edit import remove, set_to
from thruline.document.change import apply
from thruline.outside.samples import AS_FOUND, ORCHARD_STREET, sample_text

FOUND, MEANT = open_text(sample_text(AS_FOUND)), open_text(sample_text(ORCHARD_STREET))
EDITS = [
    set_to(read_address("unit[delay].channel"), 12),
    set_to(read_address("unit[pre].settings.midi-out"), "out"),
    set_to(read_address("unit[mod].place.x"), 570),
    set_to(read_address("preset[4].reverb"), "08"),
    set_to(read_address("preset[9].name"), "Roof"),
    set_to(read_address("sweep[Swell].presets"), [3, 7]),
    set_to(read_address("cable[feet.midi-out-2>split.midi-in].length"), 700),
    remove(read_address("cable[echo.midi-out>looper.midi-in]")),
    remove(read_address("preset[24]")),
    remove(read_address("unit[level]")),
    remove(read_address("song[Lantern song]")),
    set_to(read_address("rig.about"), "nothing to do with the board"),
]


def changed(edits):
    return open_again(MEANT, apply(MEANT.document.text, edits))


def kinds(found):
    return [task.kind.value for task in found.tasks]


@pytest.mark.parametrize("seed", range(5))
def test_some_edits_are_undone_by_the_work_they_cause(seed):
    edits = random.Random(seed).sample(EDITS, 3)
    there, back = compare(MEANT, changed(edits)), compare(changed(edits), MEANT)
    for found in (there, back):
        assert found.is_complete
        assert found.is_least
    assert bool(there.tasks) == any("about" not in str(one.address) for one in edits)


@pytest.mark.parametrize(
    ("edit", "wanted"),
    [
        (EDITS[2], ["move"]),
        (EDITS[4], ["enter"]),
        (EDITS[5], ["pedal"]),
        (EDITS[6], ["make"]),
        (EDITS[7], ["unplug"]),
        (EDITS[11], []),
    ],
)
def test_one_edit_is_one_task_and_nothing_else(edit, wanted):
    assert kinds(compare(MEANT, changed([edit]))) == wanted


def test_a_channel_is_set_and_every_preset_that_uses_it_entered():
    found = compare(MEANT, changed([EDITS[0]]))
    assert kinds(found) == ["set", *["enter"] * len(MEANT.rig.presets), "pedal"]


def test_a_new_controller_holds_nothing_yet():
    other = open_text(MEANT.document.text.replace('"braeburn-six"', '"quarrenden-three"'))
    found = compare(MEANT, other)
    assert found.is_complete
    assert kinds(found).count("enter") == len(other.rig.presets)


def test_the_board_as_found_becomes_the_board_as_meant():
    found = compare(FOUND, MEANT)
    assert found.says.endswith(
        "proved: carried out they give the new board, and none can be left out"
    )
    titles = [section.title for section in compare_sections(found)]
    assert titles == ["Cables", "Set on the units", "In the controller", "On paper",
                      "Test again, and nothing else", "Proof"]  # fmt: skip


def test_a_board_with_itself():
    found = compare(MEANT, MEANT)
    assert found.says == "nothing has to be done on the board"
    assert found.trials == ()
    assert compare_json(found)["tasks"] == []


def test_json_has_every_change():
    told = compare_json(compare(FOUND, MEANT))
    assert told["complete"]
    assert told["least"]
    assert all(task["changes"] and task["says"] for task in told["tasks"])
