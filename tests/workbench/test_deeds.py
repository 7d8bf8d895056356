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
    assert kept.revisions.known[2].says == "set preset[1].name"
