import pytest

from tests.app.keeping import BOARD
from tests.opening import open_text
from thruline.app.mend import after_edits, state_of
from thruline.app.preset_grid import (
    NotUnderstoodCells,
    Typed,
    added_preset,
    columns_of,
    grid_json,
    typed_edits,
)
from thruline.base.errors import CannotUse


@pytest.fixture
def state():
    return state_of(open_text(BOARD.replace("delay = { mix = 90 }", "")))


def test_the_sheet_tells_what_is_typed_and_what_it_means(state):
    told = grid_json(state)
    assert [one["id"] for one in told["units"]] == ["delay"]
    first, second = told["presets"]
    assert (first["label"], first["name"], first["cells"]) == ("1", "Clean", ["mix 10"])
    assert " = 10 on the wire" in first["hints"][0]
    assert "left over: Mix" in second["left"][0]
    assert columns_of(state)[0].id == "delay"


def test_what_differs_from_an_earlier_sheet_is_told_by_rows(state):
    assert grid_json(state, state) == {"rows": {}}
    after = after_edits(state, typed_edits(state, [Typed("1", "delay", "mix 20")]))
    rows = grid_json(after)["presets"]
    told = grid_json(after, state)["rows"]
    assert told[0] == rows[0]
    assert all(rows[place] == row for place, row in told.items())
    old = grid_json(state)["presets"]
    assert [row for place, row in enumerate(rows) if row != old[place]] == list(told.values())


def test_a_sheet_of_other_rows_is_told_whole(state):
    more = after_edits(state, [added_preset(state)])
    assert grid_json(more, state) == grid_json(more)


def test_texts_become_edits_of_their_places(state):
    typed = [
        Typed("1", "delay", "11B, mix 50%"),
        Typed("2", "name", " Solo  two "),
        Typed("2", "delay", ""),
    ]
    after = after_edits(state, typed_edits(state, typed))
    assert after.opened.rig.preset(2).name == "Solo two"
    assert grid_json(after)["presets"][0]["cells"] == ["11B, mix 50%"]
    assert typed_edits(after, typed) == ()


def test_an_emptied_cell_is_taken_out_of_the_document(state):
    after = after_edits(state, typed_edits(state, [Typed("1", "delay", "")]))
    assert "delay = " not in after.opened.document.text


def test_nothing_is_taken_of_what_makes_no_sense(state):
    with pytest.raises(NotUnderstoodCells, match=r"delay of preset 1: .* it reads like") as told:
        typed_edits(state, [Typed("2", "delay", "mix 3"), Typed("1", "delay", "loud")])
    assert [one.preset for one, _ in told.value.cells] == ["1"]
    for name, says in (
        (" ", "a name of 1 to 80 letters"),
        ("x" * 81, "a name of 1 to 80 letters"),
        ("a\u202eb", "this name holds the character"),
    ):
        with pytest.raises(NotUnderstoodCells, match=says):
            typed_edits(state, [Typed("1", "name", name)])
    assert typed_edits(state, [Typed("1", "name", "x" * 80)])
    for gone in (Typed("9", "delay", "mix 3"), Typed("1", "echo", "mix 3")):
        with pytest.raises(CannotUse, match="any more"):
            typed_edits(state, [gone])


def test_a_preset_is_added_and_copied_with_the_next_number(state):
    assert added_preset(state).value == {"number": 3, "name": "Preset 3"}
    copy = added_preset(state, "1").value
    assert copy == {"number": 3, "name": "Clean (copy)", "delay": {"mix": 10}}
    with pytest.raises(CannotUse, match="any more"):
        added_preset(state, "9")
    empty = state_of(open_text(BOARD.partition("[[preset]]")[0]))
    assert added_preset(empty).value["number"] == 1
