"""The settings sheet."""

from tests.opening import open_text
from tests.routed import case_of_two_lines
from thruline.base.measures import shown_ms
from thruline.papers.settings_sheet import bring_up_order, settings_sheet
from thruline.proof.board import Board
from thruline.proof.example_boards import (
    DELAY,
    DELAY_TO_REVERB,
    TO_DELAY,
    a_preset,
    a_unit,
    board,
)

REVERB = a_unit("reverb", "pippin-reverb", "channel = 4", 'name = "Hall"')
BASS = a_unit("bass", "worcester-bass", "channel = 5")


def board_of(*pieces):
    return Board(open_text(board(*pieces).rig).rig)


def test_units_come_in_the_order_of_power_up():
    found = board_of(
        BASS, REVERB, DELAY, a_unit("supply", "elstar-supply"), TO_DELAY, DELAY_TO_REVERB
    )
    ids = [unit.id for unit in bring_up_order(found)]
    assert ids == ["supply", "feet", "delay", "reverb", "bass"]


def test_every_setting_has_a_row_to_tick():
    found = board_of(DELAY)
    paper = settings_sheet(found)
    for unit in found.rig.units.values():
        section = next((one for one in paper.sections if unit.name in one.title), None)
        settings = unit.chart.settings.values()
        names = [row[1] for row in section.table.rows] if section and section.table else []
        assert [one.name for one in settings] == [one for one in names if one != "MIDI channel"]
        assert ("MIDI channel" in names) == (unit.chart.channel is not None)
        assert all(row[0] == "[ ]" for row in section.table.rows if section.table)


def test_what_is_set_and_where_and_what_it_shows_then():
    found = board_of(DELAY, TO_DELAY, a_preset(7, "Balcony", 'delay = { program = "11B" }'))
    chart = found.rig.units["delay"].chart
    delay = settings_sheet(found).sections[-1]
    rule = chart.channel
    assert ("[ ]", "MIDI channel", "3", rule.where, str(rule.factory)) in delay.table.rows
    later = shown_ms(chart.settle.load_us)
    assert delay.notes[0] == (
        f'After the first test: press 7 "Balcony"; it shows 11B, {later} later.'
    )
    assert delay.notes[1].startswith("Not written in the document")


def test_a_control_is_a_test_where_there_is_no_program():
    paper = settings_sheet(board_of(DELAY, a_preset(1, "One", 'delay = { mix = "50%" }')))
    assert 'press 1 "One"; it shows Mix 50 %' in paper.sections[-1].notes[0]


def test_several_channels_and_a_name_of_its_own():
    paper = settings_sheet(board_of(REVERB, BASS, a_unit("supply", "elstar-supply")))
    assert any(one.title == "Hall (Pippin Reverb)" for one in paper.sections)
    assert "Nothing to set on: Elstar Twelve." in paper.about


def test_a_controller_that_chooses_by_unit_is_told_which_output_each_unit_is_on():
    paper = settings_sheet(case_of_two_lines().board)
    section = next(one for one in paper.sections if one.title.endswith(": outputs"))
    assert [row[1:] for row in section.table.rows] == [
        ("Bramley Delay", "3", "LINE A"),
        ("Bramley Delay", "3", "LINE B"),
    ]
    alike = settings_sheet(case_of_two_lines(controller="braeburn-six").board)
    assert not [one for one in alike.sections if one.title.endswith(": outputs")]
