import pytest

from tests.app.keeping import keeping
from thruline.app.desk import open_desk
from thruline.base.errors import CannotUse
from thruline.workbench.deeds import DEEDS, deed


def test_a_deed_is_looked_up_by_its_word():
    with pytest.raises(CannotUse, match=", ".join(DEEDS)):
        deed("burn", {})


def test_a_name_changes_no_rig():
    kept = keeping()
    desk = open_desk(kept)
    assert deed("name", {"revision": 1, "name": "as delivered"})(desk, kept) is desk
    assert kept.revisions.known[1][1] == "as delivered"


def test_an_edit_is_made_on_what_was_seen():
    kept = keeping()
    desk = open_desk(kept)
    edit = {"do": "set", "address": "preset[1].name", "value": "Verse"}
    after = deed("edit", {"edits": [edit], "seen": 1})(desk, kept)
    assert after.state.opened.rig.preset(1).name == "Verse"
    assert kept.revisions.known[2].says == 'preset 1, name: "Verse" (was "Clean")'


def test_a_preset_is_renumbered_and_sorted():
    kept = keeping()
    desk = open_desk(kept)
    asked = {"preset": "1", "text": "9", "seen": 1}
    desk = deed("renumber-preset", asked)(desk, kept)
    assert [one.number for one in desk.state.opened.rig.presets] == [9, 2]
    assert kept.revisions.known[2].says == "preset 1 became 9"
    same = {"preset": "9", "text": "9", "seen": 2}
    assert deed("renumber-preset", same)(desk, kept) is desk
    desk = deed("sort-presets", {})(desk, kept)
    assert [one.number for one in desk.state.opened.rig.presets] == [2, 9]
    assert "order of their numbers" in kept.revisions.known[3].says


def test_a_place_is_changed_though_another_has_changed_something_there():
    kept = keeping()
    desk = open_desk(kept)
    edit = {"do": "set", "address": "unit[delay].channel", "value": 4}
    desk = deed("edit", {"edits": [edit], "seen": 1})(desk, kept)
    moved = {"address": "unit[delay]", "by": -1, "seen": 1}
    desk = deed("move-fact", moved)(desk, kept)
    assert list(desk.state.opened.rig.units) == ["delay", "feet"]
    assert "channel = 4" in kept.file.content.decode()
    assert kept.revisions.known[3].says == "put unit[delay] earlier"


def test_a_unit_is_renamed():
    kept = keeping()
    desk = open_desk(kept)
    desk = deed("rename-unit", {"unit": "delay", "text": "echo"})(desk, kept)
    assert list(desk.state.opened.rig.units) == ["feet", "echo"]
    assert kept.revisions.known[2].says == "delay is called echo"
    assert deed("rename-unit", {"unit": "echo", "text": "echo"})(desk, kept) is desk
