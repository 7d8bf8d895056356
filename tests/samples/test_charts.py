"""The sample charts: invented, consistent, and between them an example of every clause."""

from collections import defaultdict
from collections.abc import Iterator
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

import pytest
from pydantic import BaseModel

from tests.samples.reading import CHART_FILES, charts, plain, shapes
from thruline.document.chart_shape import ChartShape
from thruline.rig.chart_check import check_chart
from thruline.rig.missing_facts import missing_facts
from thruline.rig.programs import label_to_wire, labels, wire_to_label
from thruline.rig.values import NotUnderstood, example_for, read_value

Clause = tuple[str, str]
"""The name of a model and of one of its fields."""


def values(shape: BaseModel) -> Iterator[tuple[Clause, Any]]:
    """Every field that a document gives, with its value, however deep it stands."""
    for name in shape.model_fields_set:
        value = getattr(shape, name)
        yield (type(shape).__name__, name), value
        for inner in value if isinstance(value, list) else [value]:
            if isinstance(inner, BaseModel):
                yield from values(inner)


def models(model: type[BaseModel]) -> set[type[BaseModel]]:
    """A model and every model that stands in one of its fields."""
    found = {model}
    for field in model.model_fields.values():
        for part in parts(field.annotation):
            if isinstance(part, type) and issubclass(part, BaseModel):
                found |= models(part)
    return found


def parts(annotation: Any) -> Iterator[Any]:
    """The plain types that an annotation is made of, and its literals."""
    origin = get_origin(annotation)
    if origin is Annotated:
        yield from parts(get_args(annotation)[0])
    elif origin in (list, dict, Union, UnionType):
        for inner in get_args(annotation):
            yield from parts(inner)
    else:
        yield annotation


def choices(model: type[BaseModel], name: str) -> set[Any]:
    """Every choice of a field that is a closed list."""
    found = set()
    for part in parts(model.model_fields[name].annotation):
        if get_origin(part) is Literal:
            found |= set(get_args(part))
    return found


def used() -> dict[Clause, list[Any]]:
    found = defaultdict(list)
    for shape in shapes().values():
        for clause, value in values(shape):
            found[clause].append(value)
    return found


def test_there_are_enough_of_them():
    assert len(CHART_FILES) >= 22


def test_every_clause_is_used_by_some_chart():
    every = {(model.__name__, name) for model in models(ChartShape) for name in model.model_fields}
    assert every - set(used()) == set()


MANY = {("OddsShape", "fault")}
"""Closed lists of which the charts need not show everything: every kind of fault."""


def test_every_choice_is_used_by_some_chart():
    taken = used()
    for model in models(ChartShape):
        for name in model.model_fields:
            if (model.__name__, name) in MANY:
                continue
            seen = taken[model.__name__, name]
            rows = (value if isinstance(value, list) else [value] for value in seen)
            flat = {one for row in rows for one in row if isinstance(one, str | int)}
            by_default = model.model_fields[name].default
            left = choices(model, name) - flat - {by_default if isinstance(by_default, str) else ""}
            assert not left, f"{model.__name__}.{name}: nobody shows {sorted(map(str, left))}"


@pytest.mark.parametrize("file", CHART_FILES, ids=lambda file: file.stem)
def test_a_file_is_called_as_its_chart_and_says_that_it_is_invented(file):
    head = plain(file)["chart"]
    assert file.name == f"{head['id']}.chart.toml"
    assert "invented sample" in head["about"]


@pytest.mark.parametrize("file", CHART_FILES, ids=lambda file: file.stem)
def test_a_file_has_comments_and_short_rows(file):
    rows = file.read_text(encoding="utf-8").splitlines()
    assert max(map(len, rows)) <= 100
    assert sum("#" in row for row in rows) >= 1


@pytest.mark.parametrize("shape", shapes().values(), ids=lambda shape: shape.chart.id)
def test_a_chart_fits_together(shape):
    assert [f"{one.address}: {one}" for one in check_chart(shape)] == []


@pytest.mark.parametrize("chart", charts().values(), ids=lambda chart: chart.id)
def test_every_label_leads_there_and_back(chart):
    if chart.programs is None:
        return
    for label in labels(chart.programs):
        wire = label_to_wire(chart.programs, label)
        assert wire is not None
        assert wire_to_label(chart.programs, wire) == label


@pytest.mark.parametrize("chart", charts().values(), ids=lambda chart: chart.id)
def test_every_control_understands_its_example(chart):
    for control in chart.controls.values():
        value = read_value(control, example_for(control).strip('"'))
        assert not isinstance(value, NotUnderstood)


def test_some_charts_lack_facts_and_some_lack_none():
    lacking = {chart.id: len(missing_facts(chart)) for chart in charts().values()}
    assert sum(count == 0 for count in lacking.values()) >= 10
    assert sum(count >= 4 for count in lacking.values()) >= 4


def test_no_two_models_answer_alike_when_asked_who_they_are():
    known = [chart.identity for chart in charts().values() if chart.identity]
    assert len(known) == len(set(known))
