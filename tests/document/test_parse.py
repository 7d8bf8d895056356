from typing import Annotated, Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel, ConfigDict, Field

from tests.document.toml_texts import documents
from thruline.base.address import read_address
from thruline.base.errors import CannotUse
from thruline.base.spot import Spot
from thruline.document.parse import parse
from thruline.document.problems import BadDocument
from thruline.document.shape import Shape


class Table(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True)


class Unit(Table):
    id: str
    channel: Annotated[int, Field(ge=1, le=16)] = 1
    settings: dict[str, str] = {}
    place: dict[str, int] = {}


class Board(Table):
    format: Literal[1] = 1
    name: str = ""
    unit: list[Unit] = []


TEXT = """\
format = 1
name = "Orchard"

[[unit]]
id = "feet"
settings = { clock = "on" }

[[unit]]
id = "delay"
channel = 3

[unit.place]
x = 2
"""


def test_a_document_that_can_be_used():
    board = parse(TEXT, Board, file="b.toml")
    assert board.shape.unit[1].channel == 3
    assert board.data["unit"][1]["place"] == {"x": 2}
    assert board.text == TEXT
    assert parse(TEXT.encode(), Board, file="b.toml") == board


@pytest.mark.parametrize(
    ("address", "row", "column", "length"),
    [
        ("unit[delay].channel", 10, 11, 1),
        ("unit[delay]", 8, 1, 8),
        ("unit[feet].settings", 6, 1, 8),
        ("unit[feet].settings.clock", 6, 22, 4),
        ("unit[feet].settings.sync", 6, 1, 8),
        ("unit[delay].place", 12, 1, 12),
        ("unit[delay].name", 8, 1, 8),
        ("unit[echo].name", 4, 1, 8),
        ("unit", 4, 1, 8),
        ("song[Act one]", 1, 1, 0),
        ("name", 2, 8, 9),
        ("name.x", 2, 8, 9),
    ],
)
def test_the_spot_of_an_address(address, row, column, length):
    spot = parse(TEXT, Board, file="b.toml").spot_of(read_address(address))
    assert spot == Spot("b.toml", row, column, length)


def test_places_are_found_only_when_a_spot_is_asked_for():
    board = parse(TEXT, Board, file="b.toml")
    assert "places" not in vars(board)
    assert board.places is board.places


def test_all_problems_come_at_once():
    with pytest.raises(BadDocument) as bad:
        parse("nam = 'x'\n[[unit]]\nchannel = 17\n", Board, file="b.toml")
    assert bad.value.says == (
        'b.toml:1:1: "nam" is not known here: did you mean "name"?\n'
        "     1 | nam = 'x'\n"
        "       | ^^^\n"
        'b.toml:2:1: "id" is missing in unit #1\n'
        "     2 | [[unit]]\n"
        "       | ^^^^^^^^\n"
        "       = here belongs: text\n"
        "b.toml:3:11: 17 is too high: the most is 16\n"
        "     3 | channel = 17\n"
        "       |           ^^\n"
        "       = here belongs: a whole number from 1 to 16\n"
        "       = for example: channel = 1"
    )


# Nothing but BadDocument may ever come out of a text, whatever it is.


def read_or_refused(source):
    try:
        return parse(source, Board, file="b.toml")
    except BadDocument as bad:
        return bad.says.encode()


@given(st.binary(max_size=200))
def test_any_bytes(source):
    read_or_refused(source)


@given(st.text(st.sampled_from("a1 =.\"'[]{},#\n\r\\\t\ufeffé-+:T"), max_size=80))
def test_any_text(source):
    read_or_refused(source)


@given(documents(), st.integers(0, 500))
def test_any_document_cut_short(document, length):
    read_or_refused(document[0][:length])


@given(documents(), st.data())
def test_any_document_with_a_slip(document, chance):
    text = document[0]
    at = chance.draw(st.integers(0, len(text)))
    upto = chance.draw(st.integers(at, min(len(text), at + 5)))
    slip = chance.draw(st.text(st.sampled_from("=.\"'[]{},#\n\\\x00 1a"), max_size=4))
    read_or_refused(text[:at] + slip + text[upto:])


@given(documents(), st.data())
def test_any_document_with_a_byte_changed(document, chance):
    source = bytearray(document[0].encode())
    if source:
        source[chance.draw(st.integers(0, len(source) - 1))] = chance.draw(st.integers(0, 255))
    read_or_refused(bytes(source))


@given(st.integers(0, len(TEXT)), st.text(max_size=6))
def test_a_board_with_a_slip(at, slip):
    read_or_refused(TEXT[:at] + slip + TEXT[at + 1 :])


def test_a_document_from_deep_within_a_program():
    def dive(levels):
        return dive(levels - 1) if levels else read_or_refused("a = [[[[[[1]]]]]]")

    with pytest.raises((CannotUse, RecursionError)):
        dive(5000)
    assert b"not known here" in dive(700)


@pytest.mark.parametrize("low", ["nan", "inf", "-inf"])
def test_what_is_no_number_to_count_with_is_refused(low):
    class Scale(Shape):
        low: float | int

    with pytest.raises(BadDocument, match=r"does not fit here|not a number that can be used"):
        parse(f"low = {low}", Scale, file="b.toml")


@pytest.mark.parametrize("name", ["a\\u001b", "a\u202e", "a\\nb"])
@pytest.mark.parametrize("where", ["name", "unit"])
def test_what_nobody_sees_is_refused_in_every_piece(where, name):
    text = TEXT.replace('"Orchard"' if where == "name" else '"on"', f'"{name}"')
    for before in (None, parse(TEXT, Board, file="b.toml")):
        with pytest.raises(BadDocument, match=r"this text (holds the character|goes over)"):
            parse(text, Board, file="b.toml", before=before)
