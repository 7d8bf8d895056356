import string
from typing import get_args

import pytest
from pydantic_core.core_schema import ErrorType

from thruline.document.says import SAYS, said_of
from thruline.document.unions import NO_SHAPE, Misfit

LIMITS = ("le", "lt", "ge", "gt", "multiple_of", "min_length", "max_length", "expected")
CONTEXT = dict.fromkeys(LIMITS, 3)


def misfit(kind, value=None, *, trail=("a",), context=CONTEXT, of_key=False):
    return Misfit(
        kind=kind, trail=trail, value=value, context=context, says="Own words", of_key=of_key
    )


@pytest.mark.parametrize("kind", get_args(ErrorType))
def test_every_kind_of_error_has_plain_words(kind):
    said = said_of(misfit(kind), "x")
    assert said
    if kind not in ("value_error", "assertion_error"):
        assert "Own words" not in said
        assert "Input should" not in said


def test_every_sentence_is_for_a_kind_that_exists():
    assert set(SAYS) - {NO_SHAPE} <= set(get_args(ErrorType))


@pytest.mark.parametrize("sentence", SAYS.values())
def test_sentences_read_alike(sentence):
    assert not sentence.endswith(".")
    assert sentence[0] in '{"t'
    fields = {field for _, field, _, _ in string.Formatter().parse(sentence) if field}
    assert fields <= {"found", "key", "what", "characters", "entries", *CONTEXT}


@pytest.mark.parametrize(
    ("case", "said"),
    [
        (misfit("string_too_long", "12345"), "this text has 5 characters: the most is 3"),
        (misfit("string_too_short", "1"), "this text has 1 character: the least is 3"),
        (misfit("string_too_short", ""), "this text is empty"),
        (misfit("string_too_short", "", of_key=True), "this key is empty"),
        (misfit("too_long", [1, 2]), "this has 2 entries: the most is 3"),
        (misfit("too_short", []), "this is empty: at least 3 must stand here"),
        (misfit("int_type", "12"), "x must be a number: take the quotation marks away"),
        (misfit("int_type", "1.2"), "x is not a whole number"),
        (misfit("literal_error", "3"), "x must be a number: take the quotation marks away"),
        (misfit("literal_error", "'3'"), "x is not known here"),
        (misfit("dict_type", 1), "x must be a table, { key = value }"),
        (misfit("missing", trail=("unit", 0, "id")), '"id" is missing'),
        (misfit("our_own_kind"), "Own words"),
        (misfit("value_error"), "Own words"),
        (misfit(NO_SHAPE, trail=()), "x does not fit here"),
    ],
)
def test_what_is_said(case, said):
    assert said_of(case, "x") == said


@pytest.mark.parametrize(
    ("kind", "value", "trail", "says"),
    [
        ("int_type", "45 cm", ("cable", 0, "length"), "a whole number of mm"),
        ("int_type", "1,2 m", ("cable", 0, "length"), "without a measure: 1200"),
        ("list_type", {"number": 1}, ("preset",), "write [[preset]] above it"),
    ],
)
def test_a_measure_and_a_single_bracket_are_told(kind, value, trail, says):
    assert says in said_of(misfit(kind, value, trail=trail), "it")
