from typing import Annotated

import pytest
from jsonschema import Draft202012Validator
from pydantic import BaseModel, ConfigDict, Field

from thruline.document.schema import DRAFT, json_schema


class Unit(BaseModel):
    """One box."""

    model_config = ConfigDict(extra="forbid", strict=True)
    id: Annotated[str, Field(description="Its short name.", examples=["delay"])]


class Board(BaseModel):
    """A board."""

    unit: list[Unit]


def test_the_schema_is_one():
    made = json_schema(Board)
    Draft202012Validator.check_schema(made)
    assert next(iter(made)) == "$schema"
    assert made["$schema"] == DRAFT


def test_titles_descriptions_and_examples_are_the_models():
    made = json_schema(Board, title="Rig")
    assert (made["title"], made["description"]) == ("Rig", "A board.")
    assert json_schema(Board)["title"] == "Board"
    assert made["$defs"]["Unit"]["properties"]["id"] == {
        "description": "Its short name.",
        "examples": ["delay"],
        "title": "Id",
        "type": "string",
    }


@pytest.mark.parametrize(
    ("data", "fits"),
    [({"unit": [{"id": "a"}]}, True), ({"unit": [{"id": "a", "x": 1}]}, False), ({}, False)],
)
def test_the_schema_allows_what_the_model_allows(data, fits):
    assert Draft202012Validator(json_schema(Board)).is_valid(data) is fits
