import pytest

from tests.rigs import chart_of, make_chart
from tests.samples.reading import charts
from thruline.papers.chart_traffic import has_sheet
from thruline.papers.chart_version_1 import HEAD, version_1

# Function and sub-row in the order of the sheet (MIDI 1.0 Detailed Specification, page A-8).
ORDER = [
    "Basic Channel", "Mode", "Note Number", "Velocity", "After Touch", "Pitch Bend",
    "Control Change", "Prog Change", "System Exclusive", "System Common", "System Real Time",
    "Aux Messages",
]  # fmt: skip


def sheet(chart):
    """The sheet by function and sub-row; a row without function belongs to the one above."""
    rows, function = {}, ""
    for name, part, *cells in version_1(chart).table.rows:
        function = name or function
        rows[function, part] = tuple(cells)
    return rows


@pytest.mark.parametrize("chart", charts().values(), ids=lambda chart: chart.id)
def test_every_sheet_has_the_standard_rows_in_order(chart):
    if not has_sheet(chart):
        return
    table = version_1(chart).table
    assert table.head == HEAD
    assert [row[0] for row in table.rows if row[0]] == ORDER
    assert all(len(row) == len(HEAD) for row in table.rows)


def test_a_delay():
    rows = sheet(charts()["bramley-delay"])
    assert rows["Basic Channel", "Default"][1] == "1"
    assert rows["Basic Channel", "Changed"][1] == "1-16"
    assert rows["Mode", "Default"][1] == "Mode 3"
    assert rows["Control Change", "52"] == ("o", "o", "Mix: 0 = 0 %, 64 = 50 %, 127 = 100 %")
    assert rows["Control Change", "0"] == ("x", "o", "Bank Select, coarse half")
    assert rows["Prog Change", ""][1] == "o 0-127"
    assert rows["System Exclusive", ""] == ("o", "o", "its identity reply")


def test_a_controller_sends_and_takes_nothing():
    rows = sheet(charts()["quarrenden-three"])
    assert rows["Basic Channel", "Default"][:2] == ("each its own", "x")
    assert rows["Control Change", "0-119"] == ("o", "x", "as programmed in its presets")
    assert rows["Prog Change", ""][:2] == ("o 0-127", "x")


def test_what_the_chart_does_not_say_is_no_cross():
    rows = sheet(chart_of(make_chart(channel={}, receive={})))
    assert rows["Basic Channel", "Default"][1] == "?"
    assert rows["Prog Change", ""][1] == "?"
    assert rows["System Real Time", "Clock"][1] == "?"
    assert rows["Pitch Bend", ""][1] == "?"


def test_parameters_show_the_numbers_that_set_them():
    rows = sheet(charts()["worcester-bass"])
    assert rows["Control Change", "NRPN 8 6"][2].startswith("Glide time")
    assert rows["Control Change", "6, 38, 98-101"][2] == "parameter number and data entry"
    assert rows["Prog Change", "True #"][1] == "0-15"
