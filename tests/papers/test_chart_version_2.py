import pytest

from tests.rigs import chart_of, make_chart
from tests.samples.reading import charts
from thruline.midi.control_names import CONTROL_NAMES
from thruline.papers.chart_traffic import has_sheet
from thruline.papers.chart_version_2 import CONTROLS_HEAD, HEAD, version_2


def answers(chart):
    return {row[0]: row[1:] for section in version_2(chart) for row in section.table.rows}


@pytest.mark.parametrize("chart", charts().values(), ids=lambda chart: chart.id)
def test_every_sheet_has_three_parts_and_the_control_numbers(chart):
    if not has_sheet(chart):
        return
    *parts, numbers = version_2(chart)
    assert [part.title[:2] for part in parts] == ["1.", "2.", "3."]
    assert all(part.table.head == HEAD for part in parts)
    assert numbers.table.head == CONTROLS_HEAD
    told = [int(row[0]) for row in numbers.table.rows]
    assert told == sorted(told)
    assert set(told) >= set(CONTROL_NAMES)
    assert all(row[2] in ("Yes", "No", "?") for row in numbers.table.rows)


def test_one_bank_byte_alone_is_answered_with_no_and_a_remark():
    assert answers(charts()["worcester-bass"])["Bank select"][1:] == (
        "No",
        "reads bank select 0 only",
    )
    assert answers(charts()["bramley-delay"])["Bank select"][1] == "Yes"


def test_a_free_number_is_private_use():
    chart = charts()["bramley-delay"]
    rows = {row[0]: row for row in version_2(chart)[-1].table.rows}
    assert rows["52"][1] == "Mix"
    assert rows["52"][4].startswith("private use: Mix: 0 = 0 %")
    assert rows["7"][1] == "channel volume"
    assert rows["61"][4] == "private use: Time: fine half of 29"
    assert rows["121"][3] == "?"


def test_parameters():
    rows = answers(charts()["worcester-bass"])
    assert rows["NRPNs"] == ("No", "Yes", "8 6 Glide time")
    assert rows["RPN 00, pitch bend range"][1] == "Yes"
    assert rows["RPN 01, channel fine tune"][1] == "No"
    assert rows["38"][3] == "sets the parameters above"


def test_what_the_chart_does_not_say_is_no_no():
    rows = answers(chart_of(make_chart(channel={}, receive={})))
    assert rows["Program change"][1] == "?"
    assert rows["Bank select"][1] == "?"
    assert rows["Device inquiry"][1] == "?"
    assert rows["MIDI clock"] == ("No", "?", "")
