import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.document.pieces import read_pieces

RIG = """format = 1
[rig]
name = "A"
[[unit]]
id = "delay"
[unit.settings]
out = "thru"
[[unit]]
id = "drive" # a comment
[[preset]]
number = 1
[[preset]]
number = 2
delay = { program = "1A", mix = 3 }
[rig.board]
width = 600
"""
ROWS = [
    *("[[a]]\n", "[[a]]\r\n", "[[ a ]] # one\n", "[a.b]\n", "[[a.c]]\n", "[[b]]\n", "[b]\n"),
    *("[b.c]\n", '[["a"]]\n', "x = 1\n", "y = [\n[[1]]\n]\n", "z = [\n", "]\n", 's = """\n'),
    *("[[a]]\u2028\n", '"""\n', "a = 2\n", "a.x = 3\n", "# [[a]]\n", "  [[a]]\n", "\n"),
    *("u = '''\n[[a]]\n'''\n", "w = {p = 1, q = [1, 2]}\n"),
]


def test_the_pieces_hold_what_the_whole_holds():
    assert read_pieces(RIG).data == tomllib.loads(RIG)


@given(st.lists(st.sampled_from(ROWS), max_size=12).map("".join))
def test_an_answer_is_that_of_the_whole_text_and_what_is_no_toml_has_none(text):
    found = read_pieces(text)
    try:
        whole = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        assert found is None
    else:
        assert found is None or found.data == whole


@given(*[st.lists(st.sampled_from(ROWS), max_size=8).map("".join)] * 2)
def test_what_was_read_before_changes_nothing(before, text):
    old, fresh = read_pieces(before), read_pieces(text)
    again = read_pieces(text, old)
    assert (again and again.data) == (fresh and fresh.data)


def test_entries_that_stood_before_are_the_same_objects():
    before = read_pieces(RIG)
    after = read_pieces(RIG.replace("mix = 3", "mix = 4"), before)
    assert after.data["unit"][0] is before.data["unit"][0]
    assert after.data["preset"][0] is before.data["preset"][0]
    assert after.data["preset"][1] == {"number": 2, "delay": {"program": "1A", "mix": 4}}


@pytest.mark.parametrize(
    "text",
    [
        "a = [{x = 1}]\n[[a]]\nx = 2\n",
        "[[a]]\nx = 1\n[b]\n[a.c]\ny = 1\n",
        's = """\n[[a]]\n"""\n',
        "x = 9223372036854775808\n",
        "[[a]]\nx = 9223372036854775808\n",
        "[[a]]\nx = " + "[" * 100 + "]" * 100 + "\n",
        "[[a]]\nx = " + "9" * 5000 + "\n",
    ],
)
def test_what_cannot_be_read_in_pieces_is_left_to_the_whole(text):
    assert read_pieces(text) is None
