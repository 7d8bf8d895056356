import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.app.answer import edit_json
from thruline.app.edit_words import LONGEST_WORDS, edits_in_words, read_edits
from thruline.base.address import at
from thruline.base.edit import add_to, remove, set_to
from thruline.base.errors import CannotUse

names = st.text("abcdefgh-", min_size=1, max_size=40)
plain = st.recursive(
    st.text(max_size=5) | st.integers() | st.booleans(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(names, inner, max_size=3),
    max_leaves=5,
)
edits = (
    st.builds(set_to, st.builds(at, names, names), plain)
    | st.builds(remove, st.builds(at, names, names))
    | st.builds(add_to, st.builds(at, names), st.dictionaries(names, plain, max_size=2))
)


@given(st.lists(edits, min_size=1, max_size=6))
def test_what_is_written_for_other_programs_is_read_back(given_edits):
    assert read_edits([edit_json(one) for one in given_edits]) == tuple(given_edits)


DATA = {
    "rig": {"name": "Pit"},
    "unit": [{"id": "delay", "channel": 3, "place": {"x": 1, "y": 2}}],
    "preset": [{"number": 1, "name": "Verse", "delay": {"program": "1A", "mix": "50%"}}],
}


@pytest.mark.parametrize(
    ("edit", "says"),
    [
        (set_to(at("rig").child("name"), "Stage"), 'rig, name: "Stage" (was "Pit")'),
        (set_to(at("unit", "delay").child("channel"), 4), "unit delay, channel: 4 (was 3)"),
        (
            set_to(at("unit", "delay").child("place"), {"x": 5, "y": 2}),
            "unit delay, place: x 5, y 2 (was x 1, y 2)",
        ),
        (set_to(at("unit", "delay").child("sent-on"), 2), "unit delay, sent on: 2"),
        (
            remove(at("preset", 1).child("delay")),
            'preset 1, delay: taken out (was program "1A", mix "50%")',
        ),
        (add_to(at("song"), {"name": "Night bus"}), 'added to song: name "Night bus"'),
        (remove(at("unit", "gone")), "unit gone: taken out"),
    ],
)
def test_an_edit_is_told_with_what_was_there(edit, says):
    assert edits_in_words([edit], DATA) == says


def test_of_many_edits_the_rest_is_counted():
    many = [set_to(at("rig").child("name"), str(nth)) for nth in range(6)]
    assert edits_in_words(many, DATA).endswith(" and 2 more")


@given(st.lists(edits, min_size=1, max_size=20))
def test_words_have_a_bound(given_edits):
    assert len(edits_in_words(given_edits, {})) <= LONGEST_WORDS


@pytest.mark.parametrize(
    ("given_edits", "says"),
    [
        (None, "a list of edits"),
        ("set", "a list of edits"),
        ([3], "edit 1 is not an object"),
        ([{"do": "set", "address": "rig.name"}], "need a value"),
        ([{"do": "remove", "address": "rig.name", "value": 1}], "remove has none"),
        ([{"do": "set", "address": "rig", "value": {"a": None}}], "leave its key out"),
        ([{"do": "set", "address": "rig", "value": {"a": b"x"}}], "cannot hold"),
        ([{"do": "remove", "address": "rig"}] * 5000, "at most 4096"),
    ],
)
def test_edits_that_make_no_sense(given_edits, says):
    with pytest.raises(CannotUse, match=says):
        read_edits(given_edits)
