"""The programming sheet, held against what the proof plays."""

from tests.opening import open_text
from tests.routed import case_by_message, case_of_two_lines
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.papers.programming_sheet import entries, programming_sheet
from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, a_sweep, board

WANTS = 'delay = { program = "11B", mix = "50%" }'


def rig_of(*pieces):
    return open_text(board(DELAY, TO_DELAY, *pieces).rig).rig


def test_every_message_of_the_sample_is_there_in_its_order_and_no_other():
    rig = open_text(sample_text(ORCHARD_STREET)).rig
    case = Case(rig)
    first = rig.controller.chart.abilities.programs_from
    for preset in rig.presets:
        typed = bytearray()
        for one in entries(case, preset):
            if one.enter == "program":
                typed += bytes((0xC0 | one.channel - 1, one.number - first))
            elif one.enter == "control":
                typed += bytes((0xB0 | one.channel - 1, one.number, one.value))
        sent = b"".join(item.data for item in case.run(preset).sending.items)
        assert bytes(typed) == sent
        pauses = [one.number for one in entries(case, preset) if one.enter == "pause, ms"]
        waits = [item.pause_us for item in case.run(preset).sending.items if item.pause_us]
        assert [each * 1000 for each in pauses] == waits


def test_numbers_are_those_of_the_controllers_screen():
    rig = rig_of(a_preset(1, "One", WANTS))
    rows = entries(Case(rig), rig.presets[0])
    program = next(one for one in rows if one.enter == "program")
    first = rig.controller.chart.abilities.programs_from
    number = rig.presets[0].goals[0].program.wire.program + first
    assert (program.channel, program.number, program.total) == (3, number, 3 + number)
    assert program.says == "Bramley Delay: program 11B"


def test_the_total_is_the_sum_of_all_numbers_on_the_row():
    section = programming_sheet(rig_of(a_preset(1, "One", WANTS))).sections[0]
    cells = [int(cell) for row in section.table.rows for cell in row[3:6] if cell]
    assert section.notes[0].endswith(f"{len(section.table.rows)} rows, total {sum(cells)}.")


def test_what_the_memory_holds_otherwise_is_to_be_entered_anew():
    held = 'messages = ["3: program 5"]'
    paper = programming_sheet(rig_of(a_preset(1, "One", held, WANTS), a_preset(2, "Two", WANTS)))
    one, two = paper.sections
    assert one.table == two.table
    assert "enter it anew" in one.notes[1]
    assert len(two.notes) == 1


def test_pedals_come_last_with_their_ends():
    move = 'unit = "delay", control = "mix", heel = 0, toe = "80%", curve = [[0, 0], [100, 90]]'
    rig = rig_of(a_preset(1, "One", WANTS), a_sweep("Swell", move))
    pedal = programming_sheet(rig).sections[-1]
    number = str(rig.units["delay"].chart.controls["mix"].number)
    assert pedal.title == 'Pedal EXP 1: sweep "Swell"'
    assert pedal.says == ("On presets: all.",)
    assert pedal.table.rows[0][1:6] == ("3", number, "0", "102", "0:0 100:90")


def test_loops_are_told():
    rig = open_text(sample_text(ORCHARD_STREET)).rig
    assert any(one.says and "loop" in one.says[0] for one in programming_sheet(rig).sections)


def test_a_controller_that_chooses_by_message_is_told_the_output_of_each():
    case = case_by_message()
    rows = [one for one in entries(case, case.rig.presets[0]) if one.says != "wait"]
    items = case.run(case.rig.presets[0]).sending.items
    marks = {"delay": "OUT L", "echo": "OUT R"}
    assert [one.output for one in rows] == [marks[item.unit] for item in items]
    cells = [row[6] for row in programming_sheet(case.rig).sections[0].table.rows]
    assert sum(cell.endswith("; output OUT R") for cell in cells) == sum(
        item.unit == "echo" for item in items
    )
    by_unit = case_of_two_lines()
    assert not any(one.output for one in entries(by_unit, by_unit.rig.presets[0]))
