"""Facts filled in by deeds, as a page asks for them."""

import tomllib

import pytest

from thruline.app.desk import open_desk
from thruline.base.errors import CannotUse
from thruline.desk_wiring import keeping_for
from thruline.workbench.deeds import deed


@pytest.fixture
def keeping(folder):
    return keeping_for(folder / "good.rig.toml")


def test_facts_are_filled_in_added_and_moved(keeping, folder):
    def held():
        return tomllib.loads((folder / "good.rig.toml").read_text())

    desk = open_desk(keeping)
    seen = desk.history.now
    desk = deed("fact", {"address": "rig.name", "text": "Second chair", "seen": seen})(
        desk, keeping
    )
    assert held()["rig"]["name"] == "Second chair"
    asked = {"address": "song", "list": True, "texts": {"name": "Encore", "presets": "11"}}
    desk = deed("add-fact", {**asked, "seen": desk.history.now})(desk, keeping)
    assert held()["song"][-1] == {"name": "Encore", "presets": [11]}
    asked = {"address": "song[Encore]", "by": -1, "seen": desk.history.now}
    desk = deed("move-fact", asked)(desk, keeping)
    assert held()["song"][-2]["name"] == "Encore"


def test_what_is_not_understood_changes_nothing(keeping, folder):
    before = (folder / "good.rig.toml").read_bytes()
    desk = open_desk(keeping)
    asked = {"address": "rig.slowest-change-ms", "text": "soon", "seen": desk.history.now}
    with pytest.raises(CannotUse, match="not understood"):
        deed("fact", asked)(desk, keeping)
    assert (folder / "good.rig.toml").read_bytes() == before
