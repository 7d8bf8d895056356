import pytest

from thruline.app.desk import edited, undone
from thruline.base.address import read_address
from thruline.base.edit import set_to
from thruline.workbench.room import Room
from thruline.workshop.history import KeptElsewhere


def named(name):
    edit = set_to(read_address("rig.name"), name)
    return lambda desk, keeping: edited(desk, [edit], keeping, says="Named")


def test_a_step_turns_and_tells_what_it_did(folder):
    room = Room("good", folder / "good.rig.toml")
    told = room.step(named("Other"))
    assert (told["turn"], told["rig"]) == (2, "Other")
    assert told["effect"] == {"gone": [], "new": []}
    assert room.step(named("Other"))["turn"] == 2


def test_two_workbenches_on_one_rig_do_not_undo_each_other(folder):
    one, other = (Room("good", folder / "good.rig.toml") for _ in range(2))
    one.step(named("Mine"))
    with pytest.raises(KeptElsewhere):
        other.step(undone)
    assert other.step(named("Theirs"))["rig"] == "Theirs"
    assert 'name = "Theirs"' in (folder / "good.rig.toml").read_text()
