import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.app.keeping import BOARD
from tests.opening import open_text
from thruline.app.mend import after_edits, state_of
from thruline.app.preset_order import in_order_of_number, preset_facts_json, renumbered_preset
from thruline.base.errors import CannotUse

NAMING = """
[[song]]
name = "Opener"
presets = [2, 1, 2]

[[sweep]]
name = "Swell"
pedal = "feet.exp"
presets = [1, 2]
moves = [{ unit = "delay", control = "mix", heel = 0, toe = 127 }]

[[accept]]
finding = "document.name-too-long at preset[2].name"
reason = "they know it"

[[accept]]
finding = "document.name-too-long at preset[1].name"
reason = "they know it too"
"""


@pytest.fixture(scope="module")
def state():
    return state_of(open_text(BOARD + NAMING))


def held(state, edits):
    return tomllib.loads(after_edits(state, edits).opened.document.text)


def test_a_new_number_is_carried_to_wherever_a_preset_is_named(state):
    after = held(state, renumbered_preset(state, "2", " 40 "))
    assert [one["number"] for one in after["preset"]] == [1, 40]
    assert after["song"][0]["presets"] == [40, 1, 40]
    assert after["sweep"][0]["presets"] == [1, 40]
    assert "preset[40].name" in after["accept"][0]["finding"]
    assert "preset[1].name" in after["accept"][1]["finding"]


def test_there_and_back_changes_no_byte(state):
    moved = after_edits(state, renumbered_preset(state, "2", "40"))
    back = after_edits(moved, renumbered_preset(moved, "40", "2"))
    assert back.opened.document.text == state.opened.document.text


@pytest.mark.parametrize(
    ("label", "typed", "why"),
    [
        ("2", "1", "preset 1 is there already: Clean"),
        ("2", "two", "not understood"),
        ("9", "3", "no preset 9 any more"),
    ],
)
def test_what_cannot_be_a_number_is_refused(state, label, typed, why):
    with pytest.raises(CannotUse, match=why):
        renumbered_preset(state, label, typed)


def test_the_same_number_is_no_change(state):
    assert renumbered_preset(state, "2", "2") == ()


def test_of_two_presets_of_one_number_only_the_one_meant_is_renumbered(state):
    twice = after_edits(state, renumbered_preset(state, "2", "3"))
    text = twice.opened.document.text.replace("number = 3", "number = 1")
    both = state_of(open_text(text))
    after = held(both, renumbered_preset(both, "1#2", "2"))
    assert [one["number"] for one in after["preset"]] == [1, 2]
    assert after["sweep"] == tomllib.loads(text)["sweep"]


@given(st.lists(st.integers(0, 999), min_size=2, max_size=8, unique=True))
def test_presets_come_into_the_order_of_their_numbers(numbers):
    head, _, _ = BOARD.partition("[[preset]]")

    def written(order):
        rows = [f'# About {one}.\n[[preset]]\nnumber = {one}\nname = "P{one}"\n' for one in order]
        return head + "\n".join(rows)

    state = state_of(open_text(written(numbers)))
    if numbers == sorted(numbers):
        with pytest.raises(CannotUse, match="in the order of their numbers already"):
            in_order_of_number(state)
        return
    text = after_edits(state, [in_order_of_number(state)]).opened.document.text
    assert text.endswith(written(sorted(numbers)))


def test_the_facts_of_a_preset(state):
    told = preset_facts_json(state, "2")["preset"]
    typed = {one["key"]: one["typed"] for one in told["facts"]}
    assert typed["number"] == "2"
    assert set(typed) == {"number", "name", "about", "messages"}
    with pytest.raises(CannotUse, match='no preset "9" any more'):
        preset_facts_json(state, "9")
