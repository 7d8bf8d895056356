"""Documents as facts to fill in, and what is typed read back."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as some

from thruline.base.address import read_address
from thruline.base.errors import CannotUse
from thruline.document.chart_shape import ChartShape
from thruline.document.facts import clauses, typed_to_value, value_to_typed
from thruline.document.read import read
from thruline.document.rig_shape import RigShape
from thruline.document.unseen import unseen_in
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.outside.shelves import sample_shelf


def _all(parts):
    for one in parts:
        yield one
        yield from _all(one.parts)


def _typed_back(model, data):
    facts = [fact for clause in _all(clauses(model, data)) for fact in clause.facts if fact.typed]
    assert facts
    for fact in facts:
        value = typed_to_value(model, fact.address, fact.typed)
        assert value_to_typed(value) == fact.typed, fact
    return facts


@pytest.mark.parametrize("chart", sample_shelf().ids())
def test_every_fact_of_every_sample_chart_is_read_back_as_it_is_shown(chart):
    sheet = sample_shelf().find(chart)
    _typed_back(ChartShape, read(sheet.content, file=chart)[1])


def test_every_fact_of_a_rig_is_read_back_as_it_is_shown():
    data = read(sample_text(ORCHARD_STREET), file="rig")[1]
    facts = _typed_back(RigShape, {key: data[key] for key in data if key != "preset"})
    assert "song" in {fact.address.steps[0].key for fact in facts}


def test_every_clause_of_a_chart_can_be_reached_before_anything_is_given():
    top = {one.key: one for one in clauses(ChartShape, {})}
    assert set(top) == {
        field.alias or name for name, field in ChartShape.model_fields.items() if name != "format"
    }
    assert [fact.key for fact in top["socket"].blank] == ["id", "kind", "connector"]
    assert "midi-in" in top["socket"].blank[1].choices
    assert top["control"].is_list
    assert not top["power"].is_given


@given(some.lists(some.text(max_size=8).filter(lambda one: not unseen_in(one)), max_size=5))
def test_any_texts_come_back(texts):
    typed = value_to_typed(texts)
    if not texts:
        return
    # the values of a setting: each one must be a text of some length
    if all(1 <= len(one) <= 80 for one in texts):
        try:
            value = typed_to_value(ChartShape, read_address("setting.values"), typed)
        except CannotUse:
            pytest.fail(f"{texts!r} is typed {typed!r}")
        assert value == texts


@pytest.mark.parametrize("typed", ["a\nb", "a\x1b[2J", "\x07", "a\u202eb"])
def test_what_nobody_sees_is_not_taken(typed):
    with pytest.raises(CannotUse, match=r"this text (holds the character|goes over)"):
        typed_to_value(RigShape, read_address("unit.name"), typed)


@pytest.mark.parametrize(
    ("address", "typed", "value"),
    [
        ("song.presets", "11, 12,14", [11, 12, 14]),
        ("song.tempo", "96", 96),
        ("audio.path", "guitar, feet.loop-1[a, b], amp", ["guitar", "feet.loop-1[a, b]", "amp"]),
    ],
)
def test_facts_of_a_rig_are_typed_as_they_are_said(address, typed, value):
    assert typed_to_value(RigShape, read_address(address), typed) == value


@pytest.mark.parametrize(
    ("address", "typed", "value"),
    [
        ("setting.means", "thru = thru-soft, out = own", {"thru": "thru-soft", "out": "own"}),
        ("setting.values", '"a, b", "c"', ["a, b", "c"]),
        ("socket.isolated", "yes", True),
        ("programs.banks.first", "A", "A"),
        ("programs.banks.first", "1", 1),
        ("identity.family", "1, 0", [1, 0]),
    ],
)
def test_facts_of_a_chart_are_typed_as_they_are_said(address, typed, value):
    found = typed_to_value(ChartShape, read_address(address), typed)
    assert found == value
    assert type(found) is type(value)


@pytest.mark.parametrize(
    ("address", "typed", "says"),
    [
        ("channel.factory", "20", "factory; write a whole number from 1 to 16, for example 3"),
        ("settle.ms", "-1", "a whole number from 0 to 10000"),
        ("settle.ms", "30000", "a whole number from 0 to 10000"),
        ("settle.ms", "9" * 20, "a whole number from 0 to 10000"),
        ("chart.maker", "x" * 90, 'x…" is not understood as maker; write text of 1 to 80 letters'),
        ("control.scale.low", "nan", "write a number"),
        ("odds.fault", "input-dea", "write one of input-dead and [0-9]+ more"),
        ("odds.fault", "zzz", "write one of input-dead, output-dead, .* and [0-9]+ more"),
        ("control.scale.low", "inf", "write a number"),
        ("socket.kind", "midi", None),
        ("socket.kind", "midi-through", "one of midi-in"),
        ("settle.ms", "soon", "for example"),
        ("settle", "1", "holds others"),
        ("settle.nothing", "1", "no fact"),
    ],
)
def test_what_is_not_understood_is_refused_with_what_belongs_there(address, typed, says):
    if says is None:
        assert typed_to_value(ChartShape, read_address(address), typed) == typed
        return
    with pytest.raises(CannotUse, match=says if says != "for example" else "not understood"):
        typed_to_value(ChartShape, read_address(address), typed)


def _addresses(model):
    for clause in _all(clauses(model, {})):
        for fact in (*clause.facts, *clause.blank):
            yield str(fact.address)


@pytest.mark.parametrize("model", [RigShape, ChartShape])
@pytest.mark.parametrize(
    "typed", ["-3", "x", "1-3", "9" * 20, "1.5", "x" * 2100, "Ä ö", "nan", '"']
)
def test_every_refusal_is_in_our_words_with_an_example_that_is_understood(model, typed):
    for address in set(_addresses(model)):
        place = read_address(address)
        try:
            typed_to_value(model, place, typed)
        except CannotUse as told:
            says = told.says
        else:
            continue
        assert len(says) < 300
        assert "; write " in says
        assert not re.search("should|Input|String|something else", says)
        _, is_given, example = says.partition(", for example ")
        if is_given:
            typed_to_value(model, place, example)
