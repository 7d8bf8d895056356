import json

import pytest

from tests.opening import TextShelf
from tests.samples.reading import CHART_FILES, FIRST_BOARD
from thruline.app.chart import list_json, look_at, looked_json, shelved, show_json
from thruline.base.errors import CannotUse
from thruline.outside.shelves import sample_shelf
from thruline.papers.implementation_chart import implementation_chart
from thruline.workshop.face import Sheet

SMALL = 'format = 1\n[chart]\nid = "{}"\nmaker = "Bramley"\nmodel = "Delay"\nkind = "delay"\n'
MINE = SMALL.format("mine")
SHELVES = (TextShelf((MINE, SMALL.format("bramley-delay"))), sample_shelf())


class Broken(TextShelf):
    """A shelf whose one chart is no TOML."""

    def __init__(self) -> None:
        super().__init__((MINE,))

    def find(self, chart_id):
        return Sheet("mine.chart.toml", b"[[")


def test_all_charts_on_the_shelves():
    found = list(shelved(SHELVES))
    assert len(found) == len(CHART_FILES) + 2
    assert [one.id for one in found] == sorted(one.id for one in found)
    assert next(one for one in found if one.id == "mine").head.maker == "Bramley"


def test_of_one_id_the_first_is_used():
    two = [one for one in shelved(SHELVES) if one.id == "bramley-delay"]
    assert [one.is_hidden for one in two] == [False, True]
    assert two[1].shelf == "the packaged samples"


def test_a_chart_that_cannot_be_read_is_listed_all_the_same():
    (one,) = shelved((Broken(),))
    assert one.head is None
    assert list_json([one])["charts"][0]["usable"] is False


def test_a_chart_without_problems():
    looked = look_at(Sheet("charts/mine.chart.toml", MINE.encode()))
    assert looked.chart is not None
    assert not looked.problems
    assert [one.fact for one in looked.missing] == ["its size", "where all this comes from"]
    assert looked.hint == ""


def test_a_chart_that_a_rig_would_not_find():
    looked = look_at(Sheet("charts/other.chart.toml", MINE.encode()))
    assert looked.hint == "a rig finds it only when its file is called mine.chart.toml"


@pytest.mark.parametrize(
    ("text", "row"),
    [
        (MINE.replace("kind", "kimd"), 6),
        (MINE + '[[socket]]\nid = "a"\nkind = "midi-in"\nconnector = "usb-c"\n', 10),
        ("[[", 1),
    ],
)
def test_problems_have_their_spot(text, row):
    looked = look_at(Sheet("mine.chart.toml", text.encode()))
    assert looked.chart is None
    assert looked.problems[0].spot.row == row
    told = looked_json([looked])["charts"][0]
    assert (told["usable"], told["problems"][0]["row"]) == (False, row)


def test_a_rig_is_no_chart():
    with pytest.raises(CannotUse, match="is a rig"):
        look_at(Sheet("a", FIRST_BOARD.read_bytes()))


@pytest.mark.parametrize("file", CHART_FILES, ids=lambda file: file.name)
def test_every_sample_can_be_shown_and_told(file):
    looked = look_at(Sheet(file.name, file.read_bytes()))
    assert looked.chart is not None
    paper = implementation_chart(looked.chart, three_parts=True)
    told = show_json(looked, paper, written=[])
    assert json.loads(json.dumps(told)) == told
    assert told["document"]["chart"]["id"] == looked.chart.id
    assert told["paper"]["sections"]
