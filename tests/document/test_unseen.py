import pytest
from hypothesis import given
from hypothesis import strategies as some

from thruline.document.problems import BadDocument
from thruline.document.read import plain_data, read, refuse_unseen
from thruline.document.unseen import UNSEEN, hides_some, unseen, unseen_in
from thruline.document.write import document_text

ESCAPES = [
    "\\u001b",
    "\\u0000",
    "\\b",
    "\\f",
    "\\r",
    "\\u0085",
    "\\u009b",
    "\\U0000202E",
    "\\u2028",
]
RAW = ["\x85", "\x9b", "\u202e", "\u2066", "\u2029"]


def taken(text):
    refuse_unseen(*read(text, file="a.toml"), file="a.toml")


def problems_of(text):
    with pytest.raises(BadDocument) as bad:
        taken(text)
    return bad.value.problems


@pytest.mark.parametrize("hidden", [*ESCAPES, *RAW])
def test_what_nobody_sees_is_refused_where_it_stands(hidden):
    (problem,) = problems_of(f'a = 1\nname = "Ver{hidden}se"\n')
    assert (problem.spot.row, problem.spot.column) == (2, 8)
    assert problem.says.startswith("this text holds the character U+")
    assert problem.says.endswith("type it again without that")


def test_every_place_is_told_in_the_order_of_the_text():
    found = problems_of(
        '[[preset]]\nnumber = 1\nname = "a\\u0007"\nx = { y = ["b", "c\\u001b"] }\n'
        '"k\\u202e" = 1\n[rig]\nabout = "d\\f"\n'
    )
    assert [problem.spot.row for problem in found] == [3, 4, 5, 7]
    assert "this key holds the character U+202E (right-to-left override)" in found[2].says


def test_more_than_are_told_are_counted():
    with pytest.raises(BadDocument) as bad:
        taken("".join(f'a{n} = "\\b"\n' for n in range(70)))
    assert (len(bad.value.problems), bad.value.more) == (50, 20)


def test_only_what_is_told_may_have_several_rows():
    for text in ('about = """a\nb\tc"""', 'reason = "a\\nb"', 'name = "a\\tb"', "a = 'C:\\x'"):
        taken(text)
    for text in ('name = "a\\nb"', 'name = """a\nb"""', "name = '''a\nb'''", 'names = ["a\\nb"]'):
        assert "write it in one" in problems_of(text)[0].says


@pytest.mark.parametrize("text", ["Ärger, 日本, עברית", "a\u200fb", "“it’s”", "👩‍🎤", "\t"])
def test_letters_of_any_language_are_taken(text):
    assert unseen_in(text) == ""
    assert plain_data(document_text({"name": text})) == {"name": text}


@given(some.text() | some.text("\x00\x1b\n\r\t\x7f\x9b\u202ea"))
def test_what_is_written_is_read_again_or_told(text):
    written = document_text({"a": {"b": [text]}})
    told = next(unseen({"a": {"b": [text]}}), None)
    assert (told is None) == (not UNSEEN.search(text) and "\n" not in text)
    if told is None:
        assert plain_data(written) == {"a": {"b": [text]}}
    else:
        assert hides_some(written, {"a": {"b": [text]}})
        assert told.trail == ("a", "b", 0)
        assert problems_of(written)
