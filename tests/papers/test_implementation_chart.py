import pytest

from tests.samples.reading import charts
from thruline.papers.implementation_chart import implementation_chart

NO_SHEET = {
    "cox-split": "passes messages on",
    "spartan-adapter": "passive adapter",
    "elstar-supply": "nothing to do with MIDI",
}


@pytest.mark.parametrize("chart", charts().values(), ids=lambda chart: chart.id)
@pytest.mark.parametrize("three_parts", [False, True])
def test_every_sample_has_a_chart(chart, three_parts):
    paper = implementation_chart(chart, three_parts=three_parts)
    assert paper.title.startswith(chart.full_name)
    titles = [section.title for section in paper.sections]
    assert titles[-1] == "Sources"
    assert len(set(titles)) == len(titles)
    for section in paper.sections:
        assert section.says or section.table
        rows = section.table.rows if section.table else ()
        assert all(len(row) == len(section.table.head) for row in rows)


@pytest.mark.parametrize(("chart_id", "says"), NO_SHEET.items())
def test_units_without_a_sheet_say_why(chart_id, says):
    paper = implementation_chart(charts()[chart_id])
    assert paper.title.endswith("what is known of it")
    first = paper.sections[0]
    assert first.title == "MIDI"
    assert says in first.says[0]


def test_the_sheets_are_told_apart():
    delay = charts()["bramley-delay"]
    assert implementation_chart(delay).sections[0].title.endswith("version 1")
    three = implementation_chart(delay, three_parts=True)
    assert three.sections[0].title == "1. Basic information"
