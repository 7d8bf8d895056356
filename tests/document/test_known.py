from typing import Annotated, Literal

import pytest
from pydantic import BaseModel, Field

from thruline.document.known import allowed, example, key_names, keys, known_at, one_of, words


class Leaf(BaseModel):
    """A leaf."""

    kind: Literal["leaf"]
    size: Annotated[int, Field(ge=-3, le=9)] = 1


class Branch(BaseModel):
    kind: Literal["branch"]
    inner: list["Leaf | Branch"] = []
    pair: tuple[int, str] = (1, "a")


class Tree(BaseModel):
    root: Branch | Leaf
    share: Annotated[float, Field(gt=0, lt=1)] = 0.5
    note: Annotated[str, Field(max_length=9)] = ""
    speed: Annotated[int | None, Field(description="MIDI clocks.", examples=[24])] = None
    word: Annotated[Literal["on", "off"], Field(description="Is it?")] = "on"
    names: dict[Annotated[str, Field(description="A name.")], bool] = {}


def at(*trail, data=None):
    return known_at(Tree, data or {}, trail)


def test_keys_of_a_table_with_several_shapes():
    assert keys(at("root")) == ["kind", "inner", "pair", "size"]
    assert keys(at("root", data={"root": {"kind": "leaf"}})) == ["kind", "inner", "pair", "size"]
    data = {"root": {"kind": "branch", "inner": [{"kind": "leaf"}]}}
    assert words(at("root", "kind", data=data)) == ["branch"]
    assert words(at("root", "inner", 0, "kind", data=data)) == ["leaf"]
    assert keys(at("nowhere", "at", "all")) == []


@pytest.mark.parametrize(
    ("trail", "told"),
    [
        (("share",), "a number above 0 below 1"),
        (("note",), "text of 9 characters at most"),
        (("speed",), "MIDI clocks"),
        (("word",), '"on" or "off"'),
        (("names",), "a table { }"),
        (("names", "a"), "true or false"),
        (("root", "size"), "a whole number from -3 to 9"),
        (("root", "pair", 1), "text"),
        (("root", "pair", 2), ""),
        (("root", "inner"), "a list [ ]"),
        (("root",), "a table { }"),
        (("nowhere",), ""),
    ],
)
def test_what_is_allowed(trail, told):
    assert allowed(at(*trail)) == told


def test_what_keys_may_be_called():
    assert allowed(key_names(at("names"))) == "a name"
    assert allowed(key_names(at("note"))) == ""


@pytest.mark.parametrize(
    ("trail", "shown"),
    [
        (("speed",), 24),
        (("word",), "on"),
        (("root", "size"), 0),
        (("names", "a"), True),
        (("share",), None),
        (("root",), None),
        (("nowhere",), None),
    ],
)
def test_examples(trail, shown):
    assert example(at(*trail)) == shown


def test_an_example_of_a_table_has_what_is_required():
    class Board(BaseModel):
        leaves: list[Leaf]
        deep: "Deep"

    class Deep(BaseModel):
        deep: "Deep"

    Board.model_rebuild(_types_namespace={"Deep": Deep})
    assert example(known_at(Board, {}, ("leaves",))) == [{"kind": "leaf"}]
    assert example(known_at(Board, {}, ("deep",))) is None


def test_lists_of_words():
    assert one_of(["a"]) == '"a"'
    assert one_of(["a", 2, True]) == '"a", 2 or true'
    assert one_of([]) == ""
    assert one_of(range(99)).endswith("23 …")
