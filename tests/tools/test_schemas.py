import json
from importlib.resources import files

import pytest
from jsonschema import Draft202012Validator

from tests.samples.reading import CHART_FILES, FIRST_BOARD, RIG_FILES, plain
from tools.schemas import texts

CHART = next(file for file in CHART_FILES if "bramley" in file.name)


def shipped(kind):
    """The schema as it comes with the program."""
    text = (files("thruline") / "schemas" / f"{kind}.schema.json").read_text(encoding="utf-8")
    return Draft202012Validator(json.loads(text))


def at(data, *place):
    """The table at a place of a document."""
    for step in place:
        data = data[step]
    return data


def test_what_is_shipped_is_up_to_date():
    for name, text in texts():
        assert (files("thruline") / "schemas" / name).read_text(encoding="utf-8") == text


@pytest.mark.parametrize("kind", ["rig", "chart"])
def test_they_are_schemas_that_explain_themselves(kind):
    schema = shipped(kind).schema
    Draft202012Validator.check_schema(schema)
    assert schema["title"] == f"thruline {kind} document"
    assert all(one.get("description") for one in schema["$defs"].values())


@pytest.mark.parametrize("file", [*RIG_FILES, *CHART_FILES], ids=lambda file: file.name)
def test_every_sample_fits(file):
    kind = "rig" if file in RIG_FILES else "chart"
    assert list(shipped(kind).iter_errors(plain(file))) == []
    other = {"rig": "chart", "chart": "rig"}[kind]
    assert not shipped(other).is_valid(plain(file))


WRONG = [
    ("rig", (), "format", 2),
    ("rig", (), "units", []),
    ("rig", ("rig",), "name", ""),
    ("rig", ("unit", 1), "chanel", 3),
    ("rig", ("unit", 2), "channel", 17),
    ("rig", ("unit", 2), "channel", "2"),
    ("rig", ("unit", 0), "id", "Feet"),
    ("rig", ("cable", 0), "from", "feet"),
    ("rig", ("cable", 0), "wiring", "type-c"),
    ("rig", ("preset", 0), "number", -1),
    ("rig", ("preset", 0), "echo", ["00"]),
    ("rig", ("sweep", 0), "moves", []),
    ("chart", ("chart",), "model", 7),
    ("chart", ("socket", 0), "connector", "rj45"),
    ("chart", ("control", 0), "kind", "knob"),
    ("chart", ("settle",), "ms", -1),
    ("chart", ("identity",), "family", [1]),
]


@pytest.mark.parametrize(("kind", "place", "key", "value"), WRONG)
def test_what_is_wrong_does_not_fit(kind, place, key, value):
    data = plain(FIRST_BOARD if kind == "rig" else CHART)
    assert shipped(kind).is_valid(data)
    at(data, *place)[key] = value
    assert not shipped(kind).is_valid(data)


@pytest.mark.parametrize(
    ("kind", "place", "key"),
    [("rig", (), "format"), ("rig", ("unit", 0), "chart"), ("chart", ("chart",), "id")],
)
def test_what_is_missing_does_not_fit(kind, place, key):
    data = plain(FIRST_BOARD if kind == "rig" else CHART)
    del at(data, *place)[key]
    assert not shipped(kind).is_valid(data)
