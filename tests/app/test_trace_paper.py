import pytest

from tests.app.test_trace import BOARD, STORED
from tests.opening import open_text
from tests.routed import case_of_two_lines
from thruline.app.trace import Which, trace
from thruline.app.trace_paper import heading, trace_sections
from thruline.papers.programming_sheet import entries
from thruline.proof.case import Case


def found(text, number=1, **more):
    return trace(Case(open_text(text).rig), number, **more)


def section(trace_found, title, **more):
    sections = [*trace_sections(trace_found, **more)]
    return next(one for one in sections if one.title.startswith(title))


def column(table, name):
    place = table.head.index(name)
    return [row[place] for row in table.rows]


def test_the_heading_says_what_when_and_why():
    said = heading(found(BOARD, came_from=2))
    assert said.startswith('1 "Intro", coming from 2 "Verse": all right at ')
    assert "cannot be faster (" in said


def test_the_heading_of_a_memory():
    said = heading(found(STORED))
    assert said.startswith('1 "Intro" as the memory holds it: 1 message is not obeyed')


def test_the_table_of_messages():
    table = section(found(BOARD), "Messages").table
    assert column(table, "no") == ["1", "2", "3", "4"]
    assert column(table, "bytes")[-1] == "B2 34 33"
    assert column(table, "enter")[-2:] == ["3: program 6", "3: control 52 = 51"]
    assert column(table, "wanted")[-2:] == ["2A", "40%"]
    assert column(table, "shows")[-2:] == ["2A", "40 %"]
    assert column(table, "becomes")[-1] == "obeyed"
    assert column(table, "pause")[:3] == ["", "", ""]


def test_it_says_what_to_enter_as_the_programming_sheet_does():
    case = Case(open_text(BOARD).rig)
    rows = [row for row in entries(case, case.rig.presets[0]) if row.says != "wait"]
    table = section(found(BOARD), "Messages").table
    assert [row for row in column(table, "enter") if row] == [row.brief for row in rows]


def test_what_a_memory_holds_is_not_what_to_enter():
    table = section(found(STORED), "Messages").table
    assert "enter" not in table.head
    assert column(table, "entered") == ["3: program 6", "3: control 52 = 51"]


def test_pauses_have_a_column_only_where_there_are_any():
    assert "pause" not in section(found(BOARD, 2), "Messages").table.head


def test_what_differs_from_the_goal_is_marked():
    other = STORED.replace("52 = 51", "52 = 1").replace(
        '"3: program 6"', '"3: program 6", "wait 50 ms"'
    )
    assert column(section(found(other), "Messages").table, "wanted")[-1] == "40% (!)"


def test_every_hop_if_asked_for():
    titles = [one.title for one in trace_sections(found(BOARD))]
    assert not any(title.startswith("On the wire") for title in titles)
    table = section(found(BOARD), "On the wire", with_bytes=True).table
    assert len(table.rows) == 4
    assert column(table, "each byte ends at")[0].startswith("B2 ")


def test_a_memory_is_compared_with_the_best_order():
    table = section(found(STORED), "Compared").table
    assert "the same goals in the best order" in column(table, "order")
    assert "1 not obeyed" in column(table, "all right at")[0]
    assert len(section(found(STORED, which=Which.BEST), "Compared").table.rows) == 3


@pytest.mark.parametrize("came_from", [None, 2])
def test_where_one_comes_from(came_from):
    sections = [one.title for one in trace_sections(found(BOARD, came_from=came_from))]
    assert any("comes from" in title for title in sections) or came_from is None


def test_nothing_sent_has_no_table():
    text = BOARD + '\n[[preset]]\nnumber = 3\nname = "Dry"\ndrive = "out"\n'
    assert not any(one.table and "no" in one.table.head for one in trace_sections(found(text, 3)))


def test_where_the_controller_chooses_it_says_over_which_output():
    for controller, marks in (
        ("pearmain-ten", ("LINE A", "LINE B")),
        ("gilliflower-two", ("OUT L", "OUT R")),
    ):
        followed = trace(case_of_two_lines(controller=controller), 1)
        table = section(followed, "Messages").table
        by_unit = {one.item.unit: one.over for one in followed.messages}
        assert by_unit == {"delay": marks[:1], "echo": marks[1:]}
        assert set(column(table, "over")) == set(marks)
    alike = trace(case_of_two_lines(controller="braeburn-six"), 1)
    assert "over" not in section(alike, "Messages").table.head
    assert all(one.over[1:] == ("MIDI OUT 1", "MIDI OUT 2") for one in alike.messages)
