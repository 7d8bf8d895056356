import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.document.toml_texts import TREES, values
from thruline.base.errors import CannotUse
from thruline.document.places import MAX_DEPTH
from thruline.document.plain import same
from thruline.document.write import WIDTH, document_text, pair_text, table_text, value_text


@given(TREES)
def test_a_document_reads_as_what_was_written(tree):
    assert same(tomllib.loads(document_text(tree)), tree)


@given(values(), st.integers(0, 60))
def test_a_value_reads_as_what_was_written(value, room):
    assert same(tomllib.loads(f"v = {value_text(value, room=room)}")["v"], value)
    assert "\n" not in value_text(value)


def test_a_rig_reads_as_if_a_person_had_typed_it():
    rig = {
        "rig": {"name": "Orchard"},
        "format": 1,
        "unit": [{"id": "delay", "place": {"x": 2, "y": 40}}, {"id": "amp"}],
        "sweep": [{"name": "Swell", "moves": [{"unit": "delay", "toe": "80 %" * 10}] * 2}],
    }
    assert document_text(rig) == (
        "format = 1\n"
        "\n"
        "[rig]\n"
        'name = "Orchard"\n'
        "\n"
        "[[unit]]\n"
        'id = "delay"\n'
        "place = { x = 2, y = 40 }\n"
        "\n"
        "[[unit]]\n"
        'id = "amp"\n'
        "\n"
        "[[sweep]]\n"
        'name = "Swell"\n'
        "moves = [\n"
        f'  {{ unit = "delay", toe = "{"80 %" * 10}" }},\n'
        f'  {{ unit = "delay", toe = "{"80 %" * 10}" }},\n'
        "]\n"
    )


def test_a_table_that_has_no_room_in_a_row_gets_a_header():
    text = table_text(("unit",), {"id": "a", "settings": {"long": "x" * 90}}, entry=True)
    assert text == f'[[unit]]\nid = "a"\n\n[unit.settings]\nlong = "{"x" * 90}"\n'


def test_plain_values_share_the_rows_of_a_long_list():
    text = pair_text(("presets",), list(range(100)), indent="  ")
    rows = text.split("\n")
    assert rows[0] == "  presets = ["
    assert rows[-1] == "  ]"
    assert len(rows) < 10
    assert max(map(len, rows)) <= WIDTH


@pytest.mark.parametrize(
    ("value", "text"),
    [
        ("50 %", '"50 %"'),
        ('say "hi"\\\n', '"say \\"hi\\"\\\\\\n"'),
        ("\x7f", '"\\u007F"'),
        (True, "true"),
        (1e16, "1e+16"),
        (float("-inf"), "-inf"),
        ([], "[]"),
        ({}, "{}"),
        ({"a b": [1, {"c": 2}]}, '{ "a b" = [1, { c = 2 }] }'),
    ],
)
def test_values_in_one_row(value, text):
    assert value_text(value) == text


@pytest.mark.parametrize("value", [None, b"x", 2**63, -(2**63) - 1, object(), [None]])
def test_what_cannot_be_written(value):
    with pytest.raises(CannotUse):
        value_text(value)


def test_too_many_levels_are_refused_before_they_are_written():
    deep = {}
    for _ in range(MAX_DEPTH + 1):
        deep = {"a": deep}
    for write in (document_text, value_text):
        with pytest.raises(CannotUse, match="levels"):
            write(deep)
