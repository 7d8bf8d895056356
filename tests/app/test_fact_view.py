"""Facts for a page, and what is typed there as edits."""

import pytest

from thruline.app.fact_view import added_edit, moved_edit, rig_facts_json, typed_edit
from thruline.app.mend import after_edits, state_of
from thruline.base.errors import CannotUse
from thruline.document.rig_shape import RigShape
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.wiring import open_sample


@pytest.fixture(scope="module")
def state():
    return state_of(open_sample(sample_text(ORCHARD_STREET), "good.rig.toml"))


def _songs(state):
    return [one.name for one in state.opened.rig.songs]


def test_a_page_is_told_of_the_rig_the_sound_songs_and_acceptances(state):
    view = rig_facts_json(state)
    assert [one["key"] for one in view["clauses"]] == ["rig", "audio", "song", "accept"]
    names = {fact["key"]: fact["typed"] for fact in view["clauses"][0]["facts"]}
    assert names["name"] == state.opened.rig.name
    assert [one["label"] for one in view["clauses"][2]["parts"]] == _songs(state)
    assert view["presets"][0] == {
        "number": state.opened.rig.presets[0].number,
        "name": state.opened.rig.presets[0].name,
    }


def test_a_song_is_added_moved_and_a_fact_of_it_taken_away(state):
    texts = {"name": "Encore", "presets": "11, 12", "tempo": "96"}
    after = after_edits(state, [added_edit(RigShape, "song", texts, is_list=True)])
    assert _songs(after) == [*_songs(state), "Encore"]
    edit = moved_edit(after.opened.document.data, "song[Encore]", by=-1)
    moved = after_edits(after, [edit])
    assert _songs(moved)[-2] == "Encore"
    bare = after_edits(moved, [typed_edit(RigShape, "song[Encore].tempo", " ")])
    assert "tempo" not in bare.opened.document.data["song"][-2]
    with pytest.raises(CannotUse, match="at the end already"):
        moved_edit(after.opened.document.data, "song[Encore]", by=1)
    with pytest.raises(CannotUse, match="not one of several"):
        moved_edit(after.opened.document.data, "rig.name", by=1)


def test_what_is_not_understood_is_no_edit():
    with pytest.raises(CannotUse, match="for example 96"):
        typed_edit(RigShape, "song[Encore].tempo", "fast")
    with pytest.raises(CannotUse, match="not understood as presets"):
        added_edit(RigShape, "song", {"name": "Encore", "presets": "all of them"}, is_list=True)
