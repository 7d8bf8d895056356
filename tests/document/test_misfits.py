from typing import Annotated, Any, Literal

import pytest
from pydantic import BaseModel, ConfigDict, Field, ValidationError, model_validator

from thruline.document.misfits import misfit_problems, nearest
from thruline.document.parse import parse
from thruline.document.places import places
from thruline.document.problems import BadDocument


class Table(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True)


class Range(Table):
    """A control that glides."""

    kind: Literal["range"]
    low: Annotated[int, Field(ge=0, le=127, examples=[10])]
    high: Annotated[int, Field(ge=0, le=127)] = 127


class Switch(Table):
    """A control that is on or off."""

    kind: Literal["switch"]
    threshold: int = 64


class Whole(Table):
    format: Literal[1, 2] = 1
    number: Annotated[int, Field(gt=0, lt=9, multiple_of=2)] = 2
    share: Annotated[float, Field(le=1.0)] = 0.5
    on: bool = True
    name: Annotated[str, Field(min_length=2, max_length=4, examples=["Mix"])] = "ab"
    id: Annotated[str, Field(pattern="^[a-z]+$", description="Small letters.")] = "a"
    word: Literal["thru", "out", "off"] = "off"
    songs: Annotated[list[int], Field(min_length=1, max_length=2)] = [1]
    value: int | str | bool = 1
    either: Annotated[int, Field(ge=0, le=127)] | Literal["on", "off"] = 0
    curve: Literal["audio"] | list[list[int]] = "audio"
    free: dict[Annotated[str, Field(max_length=3)], int] = {}
    control: list[Annotated[Range | Switch, Field(discriminator="kind")]] = []
    plain: Range | Switch | None = None
    place: Range | str | None = None


def problems_of(text, model=Whole):
    with pytest.raises(BadDocument) as bad:
        parse(text, model, file="f")
    return bad.value.problems


def only(text, model=Whole):
    problems = problems_of(text, model)
    assert len(problems) == 1, [str(one) for one in problems]
    return problems[0]


@pytest.mark.parametrize(
    ("text", "column", "says"),
    [
        ("number = 0", 10, "0 is too low: it must be above 0"),
        ("number = 10", 10, "10 is too high: it must be below 9"),
        ("number = 3", 10, "3 is not a multiple of 2"),
        ("number = 0x03", 10, "0x03 is not a multiple of 2"),
        ("number = 1.5", 10, "1.5 is not a whole number"),
        ("number = true", 10, "true is not a whole number"),
        ('number = "2"', 10, '"2" must be a number: take the quotation marks away'),
        ('format = "1"', 10, '"1" is not known here'),
        ("share = 1.5", 9, "1.5 is too high: the most is 1.0"),
        ('share = "a"', 9, '"a" is not a number'),
        ('on = "on"', 6, '"on" must be true or false'),
        ('name = ""', 8, "this text is empty"),
        ('name = "x"', 8, "this text has 1 character: the least is 2"),
        ('name = "12345"', 8, "this text has 5 characters: the most is 4"),
        ("name = 7", 8, "7 must be text, in quotation marks"),
        ("name = 2026-05-01", 8, "2026-05-01 must be text, in quotation marks"),
        ('id = "A"', 6, '"A" is not written as it must be here'),
        ('word = "of"', 8, '"of" is not known here: did you mean "off"?'),
        ('word = "zzz"', 8, '"zzz" is not known here'),
        ("songs = []", 9, "this is empty: at least 1 must stand here"),
        ("songs = [1, 2, 3]", 9, "this has 3 entries: the most is 2"),
        ("songs = 1", 9, "1 must be a list, in [ ]"),
        ("songs = ['a']", 10, "'a' is not a whole number"),
        ("value = []", 9, "[] does not fit here"),
        ("either = 200", 10, "200 is too high: the most is 127"),
        ('either = "onn"', 10, '"onn" does not fit here: did you mean "on"?'),
        ('curve = "audi"', 9, '"audi" does not fit here: did you mean "audio"?'),
        ("curve = [[1], [2, 'x']]", 19, "'x' is not a whole number"),
        ("free = 1", 8, "1 must be a table, { key = value }"),
        ("free = { long = 1 }", 10, "this key has 4 characters: the most is 3"),
        ("colour = 1", 1, '"colour" is not known here'),
        ("nmae = 'ab'", 1, '"nmae" is not known here: did you mean "name"?'),
        ("[nme]", 1, '"nme" is not known here: did you mean "name"?'),
        ("[number]", 1, "a table is not a whole number"),
        ("[[number]]", 1, "a list is not a whole number"),
        ("control = [{ kind = 'rang' }]", 21, "'rang' is not known here: did you mean \"range\"?"),
        ("control = [{ low = 1 }]", 12, '"kind" is missing in control #1'),
        ("control = [{ kind = 'range' }]", 12, '"low" is missing in control #1'),
        ("plain = { kind = 'range' }", 1, '"low" is missing in plain'),
        ("plain = { kind = 'range', low = 300 }", 33, "300 is too high: the most is 127"),
        ("plain = { kind = 'switch', treshold = 3 }", 28, 'did you mean "threshold"?'),
        ("plain = 3", 9, "3 does not fit here"),
        ("place = { kind = 'range', low = 'x' }", 33, "'x' is not a whole number"),
    ],
)  # fmt: skip
def test_what_is_said_of_a_misfit(text, column, says):
    problem = only(text)
    assert (problem.spot.row, problem.spot.column) == (1, column)
    assert says in problem.says


@pytest.mark.parametrize(
    ("text", "allowed", "example"),
    [
        ('word = "zzz"', '"thru", "out" or "off"', 'word = "thru"'),
        ("either = []", 'a whole number from 0 to 127, or "on" or "off"', 'either = "on"'),
        ('id = "A"', "small letters", ""),
        ("name = 1", 'text like "Mix"', 'name = "Mix"'),
        ("number = 'a'", "a whole number above 0 below 9", ""),
        ("plain = { kind = 'range' }", "a whole number from 0 to 127", "low = 10"),
        ("value = []", "a whole number, or text, or true or false", ""),
        ("colour = 1", "one of the keys format, number, share, on, name, id", ""),
        ("songs = 1", "", ""),
    ],
)
def test_what_belongs_there_and_an_example(text, allowed, example):
    problem = only(text)
    assert problem.allowed.startswith(allowed)
    assert problem.example == example


def test_a_nearest_word_is_the_example():
    problem = only('word = "of"')
    assert problem.nearest == "off"
    assert problem.example == 'word = "off"'


def test_a_misspelt_key_is_not_missing_as_well():
    problem = only("plain = { kind = 'range', lov = 3 }")
    assert problem.says == '"lov" is not known here: did you mean "low"?'
    assert problem.example == "low = 10"


def test_a_key_of_the_name_of_a_shape():
    """The tag that pydantic puts into its trail is also a key here."""

    class Tagged(Table):
        control: list[Annotated[Range | Odd, Field(discriminator="kind")]]

    problem = only("control = [{ kind = 'odd', odd = { low = 1 } }]", Tagged)
    assert problem.says == '"high" is missing in odd of control #1'
    assert problem.spot.column == 28


class Span(Table):
    low: int
    high: int


class Odd(Table):
    kind: Literal["odd"]
    odd: Span


def test_a_newer_format_is_told_kindly_and_alone():
    problem = only("format = 3\nnews = 1\nword = 7\n")
    assert "of format 3, which is newer than this thruline: it reads format 1 or 2" in problem.says
    assert len(problems_of("format = 0\nnews = 1\n")) == 2


def test_problems_come_in_the_order_of_the_text():
    text = "word = 1\n[[control]]\nkind = 'range'\n[[control]]\nx = 1\n"
    assert [problem.spot.row for problem in problems_of(text)] == [1, 2, 4]


def test_only_so_many_are_told():
    with pytest.raises(BadDocument) as bad:
        parse("".join(f"x{n} = 1\n" for n in range(70)), Whole, file="f")
    assert len(bad.value.problems) == 50
    assert bad.value.more == 20


def test_a_validators_own_words_are_kept():
    class Pair(Table):
        low: int
        high: int

        @model_validator(mode="after")
        def _ordered(self) -> "Pair":
            if self.low > self.high:
                raise ValueError(f"low ({self.low}) is above high ({self.high})")
            return self

    class Board(Table):
        pair: list[Pair]

    problem = only("[[pair]]\nlow = 1\nhigh = 2\n[[pair]]\nlow = 3\nhigh = 2\n", Board)
    assert problem.says == "low (3) is above high (2)"
    assert problem.spot.row == 4


def test_missing_tables_show_how_they_begin():
    class Board(Table):
        rig: Span
        unit: list[Range]

    rig, unit = problems_of("", Board)
    assert (rig.says, rig.example) == ('"rig" is missing', "")
    assert unit.example == '[[unit]]\nkind = "range"\nlow = 10'


def test_nearest():
    assert nearest("chanel", ["number", "channel"]) == "channel"
    assert nearest("CHANNEL", ["channel"]) == "channel"
    assert nearest("din", ["din5", "din7"]) == "din5"
    assert nearest("xyz", ["channel"]) is None
    assert nearest("x", []) is None


def test_misfits_of_a_model_with_anything_in_it():
    class Loose(Table):
        any: dict[str, Any]

    text = "any = 1"
    with pytest.raises(ValidationError) as error:
        Loose.model_validate({"any": 1})
    found, more = misfit_problems(error.value, places(text), {"any": 1}, model=Loose, file="f")
    assert (len(found), more) == (1, 0)
