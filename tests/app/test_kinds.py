import pytest

from tests.samples.reading import CHART_FILES, FIRST_BOARD
from thruline.app.kinds import parse_chart, parse_rig
from thruline.base.errors import CannotUse
from thruline.document.problems import BadDocument

CHART = CHART_FILES[0].read_bytes()
RIG = FIRST_BOARD.read_bytes()


def test_each_is_read_as_what_it_is():
    assert parse_rig(RIG, file="a.rig.toml").shape.rig.controller == "feet"
    assert parse_chart(CHART, file="a.chart.toml").shape.chart.id


def test_a_chart_given_as_a_rig():
    with pytest.raises(CannotUse, match=r"is a chart, not a rig; `thruline chart check a\.toml`"):
        parse_rig(CHART, file="a.toml")


def test_a_rig_given_as_a_chart():
    with pytest.raises(CannotUse, match=r"is a rig, not a chart; `thruline prove a\.toml`"):
        parse_chart(RIG, file="a.toml")


@pytest.mark.parametrize("text", ["", "# nothing yet\n", b"\xef\xbb\xbf"])
@pytest.mark.parametrize(
    ("parse", "command"),
    [(parse_rig, "thruline new NAME.rig.toml"), (parse_chart, "thruline chart copy CHART")],
)
def test_an_empty_document_is_told_where_to_start(parse, command, text):
    with pytest.raises(BadDocument) as told:
        parse(text, file="a.toml")
    (problem,) = told.value.problems
    assert problem.says.startswith("this document is empty; ")
    assert f"`{command}`" in problem.says
    assert problem.example == ""


def test_examples_make_sense_where_they_stand():
    with pytest.raises(BadDocument) as told:
        parse_rig("format = 1\n", file="a.rig.toml")
    head, unit = (problem.example for problem in told.value.problems)
    assert head == '[rig]\nname = "Pit board"\ncontroller = "feet"'
    assert unit == '[[unit]]\nid = "delay"\nchart = "bramley-delay"'
    with pytest.raises(BadDocument) as told:
        parse_chart("format = 1\n", file="a.chart.toml")
    assert 'maker = "Bramley"\nmodel = "Delay"\nkind = "delay"' in told.value.problems[0].example


@pytest.mark.parametrize("text", ["", "x = 1", "format = 1\n[rig]\n[chart]", "[[", b"\xff"])
def test_what_is_neither_is_told_by_its_problems(text):
    for parse in (parse_rig, parse_chart):
        with pytest.raises(BadDocument):
            parse(text, file="a.toml")
