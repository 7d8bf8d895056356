"""A rig document with its charts, read and resolved."""

import pytest

from tests.opening import TextShelf, open_text, with_head
from thruline.app.load import open_again, open_rig, pick_preset
from thruline.base.errors import CannotUse
from thruline.document.problems import BadDocument
from thruline.outside.shelves import sample_shelf
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, a_unit, board
from thruline.workshop.face import Sheet

RIG = with_head(board(DELAY, TO_DELAY, a_preset(5, "Overture")).rig)
BROKEN = """
format = 1

[chart]
id = "broken"
maker = "Example"
model = "Broken"
kind = "delay"

[[output]]
socket = "midi-out"
ways = ["thru-soft"]
"""


def test_charts_are_read_once_and_kept() -> None:
    opened = open_text(RIG)
    assert set(opened.charts) == {"braeburn-six", "bramley-delay"}
    again = open_again(opened, RIG.replace("Overture", "Prologue"))
    assert again.charts["bramley-delay"] is opened.charts["bramley-delay"]
    assert again.rig.presets[0].name == "Prologue"


def test_a_missing_chart_names_the_row_the_shelves_and_the_nearest() -> None:
    text = RIG.replace("bramley-delay", "bramly-delay")
    with pytest.raises(BadDocument) as trouble:
        open_text(text)
    says = trouble.value.says
    assert 'there is no chart "bramly-delay"' in says
    assert "the packaged samples" in says
    assert "bramley-delay" in says
    assert trouble.value.problems[0].spot.row == RIG[: RIG.index('"bramley-delay"')].count("\n") + 1


def test_every_missing_chart_is_told_at_once() -> None:
    text = board(a_unit("one", "no-such"), a_unit("two", "nor-this")).rig
    with pytest.raises(BadDocument) as trouble:
        open_text(text)
    assert len(trouble.value.problems) == 2


def test_a_chart_that_contradicts_itself_is_refused_with_its_file() -> None:
    shelves = (TextShelf((BROKEN,)), sample_shelf())
    text = with_head(board(a_unit("it", "broken")).rig)
    with pytest.raises(BadDocument, match=r"broken\.chart\.toml") as trouble:
        open_rig(text, file="example.rig.toml", shelves=shelves)
    assert trouble.value.exit_code == 2


def test_a_chart_of_another_id_than_its_file_is_refused_at_its_id() -> None:
    class Mislabelled(TextShelf):
        def find(self, chart_id: str) -> Sheet | None:
            sheet = super().find("broken") if chart_id == "it" else None
            return Sheet("charts/it.chart.toml", sheet.content) if sheet else None

    good = BROKEN.split("[[output]]", maxsplit=1)[0]
    text = with_head(board(a_unit("it", "it")).rig)
    with pytest.raises(BadDocument) as trouble:
        open_rig(text, file="x.rig.toml", shelves=(Mislabelled((good,)), sample_shelf()))
    (problem,) = trouble.value.problems
    assert (problem.spot.file, problem.spot.row) == ("charts/it.chart.toml", 5)
    assert 'calls itself "broken"' in problem.says
    assert 'called after "it"' in problem.says
    assert problem.example == 'id = "it"'


def test_a_chart_that_is_no_chart_is_refused_with_its_file() -> None:
    class Wrong(TextShelf):
        def find(self, chart_id: str) -> Sheet | None:
            return Sheet(f"charts/{chart_id}.chart.toml", b"format = 1\n[[unit]]\n")

    with pytest.raises(CannotUse, match=r"charts/braeburn-six\.chart\.toml"):
        open_rig(RIG, file="x.rig.toml", shelves=(Wrong(()),))


def test_a_rig_without_presets_says_so() -> None:
    with pytest.raises(CannotUse, match="has no presets yet"):
        pick_preset(open_text(with_head(board(DELAY).rig)).rig, 6)


def test_own_charts_come_before_samples() -> None:
    own = BROKEN.replace("broken", "bramley-delay").split("[[output]]")[0]
    opened = open_rig(RIG, file="x.rig.toml", shelves=(TextShelf((own,)), sample_shelf()))
    assert opened.charts["bramley-delay"].maker == "Example"


def test_a_wrong_preset_number_names_the_nearest() -> None:
    rig = open_text(RIG).rig
    pick_preset(rig, 5)
    with pytest.raises(CannotUse, match="there is no preset 6 in this rig; the nearest are 5"):
        pick_preset(rig, 6)


def test_a_preset_by_its_name() -> None:
    rig = open_text(RIG + a_preset(6, "Over the hill") + a_preset(7, "Balcony")).rig
    for wanted in (5, "5", "overture", "Overt"):
        assert pick_preset(rig, wanted).number == 5
    with pytest.raises(CannotUse, match='"over" may be 5 "Overture", 6 "Over the hill": give more'):
        pick_preset(rig, "over")
    with pytest.raises(CannotUse, match='called "Overtur3"; did you mean "Overture"'):
        pick_preset(rig, "Overtur3")
