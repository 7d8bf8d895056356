from typing import Annotated, Literal

import pytest
from pydantic import BaseModel, Field

from thruline.document.belongs import belongs, example_in
from thruline.document.known import known_at

Name = Annotated[
    str, Field(pattern="^[a-z]+$", max_length=9, description="Small letters.", examples=["ab"])
]


class Model(BaseModel):
    whole: Annotated[int, Field(ge=1, le=16)]
    above: Annotated[int | None, Field(ge=1)]
    either: float | int
    switch: bool
    name: Annotated[Name, Field(examples=["drum"])]
    short: Annotated[str, Field(max_length=8)]
    text: str
    word: Literal["all"] | list[Annotated[int, Field(ge=0)]]
    some: list[Literal["a", "b"]]
    names: list[Name]
    rows: list[list[int]]
    two: Annotated[list[int], Field(min_length=2, max_length=2)]
    few: Annotated[list[int], Field(max_length=3)]
    pairs: dict[str, str]
    usual: int = 7


@pytest.mark.parametrize(
    ("key", "told"),
    [
        ("whole", "a whole number from 1 to 16"),
        ("above", "a whole number from 1"),
        ("either", "a number"),
        ("switch", "yes or no"),
        ("name", "small letters, at most 9 of them"),
        ("short", "text of at most 8 letters"),
        ("text", "text"),
        ("word", "all or whole numbers from 0, with commas between"),
        ("some", "some of a, b, with commas between"),
        ("names", "words with commas between"),
        ("rows", "a list, in [ ]"),
        ("two", "2 whole numbers, with commas between"),
        ("few", "0 to 3 whole numbers, with commas between"),
        ("pairs", "pairs such as a = b, with commas between"),
    ],
)
def test_every_kind_of_value_in_words(key, told):
    assert belongs(known_at(Model, {}, (key,))) == told


@pytest.mark.parametrize(
    ("key", "usual", "example"),
    [("name", None, "drum"), ("usual", 7, 7), ("whole", None, 1), ("text", "", None)],
)
def test_an_example_is_told_or_usual_or_made_up(key, usual, example):
    assert example_in(known_at(Model, {}, (key,)), usual) == example
