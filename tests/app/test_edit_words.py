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


@given(st.lists(edits, min_size=1, max_size=20))
def test_words_have_a_bound(given_edits):
    assert len(edits_in_words(given_edits)) <= LONGEST_WORDS


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
