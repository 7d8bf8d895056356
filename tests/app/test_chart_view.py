"""Charts for a page: which there are, what one holds, what is wrong with it, what it lacks."""

import pytest

from thruline.app.chart_desk import chart_copied, chart_edited, chart_made
from thruline.app.chart_view import charts_json
from thruline.app.desk import open_desk
from thruline.app.fact_view import typed_edit
from thruline.desk_wiring import keeping_for
from thruline.document.chart_shape import ChartShape
from thruline.outside.samples import ORCHARD_STREET, sample_text


@pytest.fixture
def keeping(tmp_path, monkeypatch):
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path / "workshop"))
    monkeypatch.delenv("THRULINE_STORE", raising=False)
    file = tmp_path / "good.rig.toml"
    file.write_text(sample_text(ORCHARD_STREET), encoding="utf-8")
    return keeping_for(file)


@pytest.fixture
def desk(keeping):
    return open_desk(keeping)


def test_without_an_id_the_first_of_the_rig_is_shown(keeping, desk):
    view = charts_json(desk, keeping, "")
    assert view["chart"]["id"] == min(desk.state.opened.charts)
    assert view["asked"] == view["chart"]["id"]
    used = {one["id"] for one in view["charts"] if one["is_used"]}
    assert used == set(desk.state.opened.charts)


def test_a_shipped_chart_can_be_read_and_a_copy_worked_on(keeping, desk):
    shown = charts_json(desk, keeping, "bramley-delay")["chart"]
    assert (shown["is_own"], shown["shelf"]) == (False, "the packaged samples")
    desk = chart_copied(desk, keeping, "bramley-delay", new="bramley-delay")
    own = charts_json(desk, keeping, "bramley-delay")["chart"]
    assert (own["is_own"], own["shelf"]) == (True, "the charts folder beside the rig")
    assert own["clauses"] == shown["clauses"]
    assert not own["can_undo"]
    assert keeping.charts.kept("bramley-delay")[1].recall() is None  # looking keeps nothing
    typed = lambda _data: typed_edit(ChartShape, "settle.ms", "777")  # noqa: E731
    desk = chart_edited(desk, keeping, "bramley-delay", make=typed)
    own = charts_json(desk, keeping, "bramley-delay")["chart"]
    assert (own["can_undo"], own["can_redo"]) == (True, False)


def test_a_chart_that_is_begun_says_what_it_lacks(keeping, desk):
    head = {"maker": "Quince", "model": "Box", "kind": "fuzz"}
    desk = chart_made(desk, keeping, "quince-box", head=head)
    chart = charts_json(desk, keeping, "quince-box")["chart"]
    assert chart["problems"] == []
    keys = {one["key"] for one in chart["clauses"]}
    assert chart["missing"]
    assert {one["address"].split(".")[0].split("[")[0] for one in chart["missing"]} <= keys


def test_no_such_chart_is_no_chart(keeping, desk):
    view = charts_json(desk, keeping, "quince-box")
    assert (view["asked"], view["chart"]) == ("quince-box", None)
    assert charts_json(desk, keeping, "../good.rig")["chart"] is None


@pytest.mark.parametrize(
    ("content", "says"),
    [(b"[chart\n", "]"), (sample_text(ORCHARD_STREET).encode(), "rig"), (b"\xff\xfe", "UTF-16")],
)
def test_what_cannot_be_used_is_shown_with_the_reason(keeping, desk, tmp_path, content, says):
    (tmp_path / "charts").mkdir()
    (tmp_path / "charts" / "broken.chart.toml").write_bytes(content)
    chart = charts_json(desk, keeping, "broken")["chart"]
    assert chart["clauses"] == []
    assert says in chart["problems"][0]["says"]
    assert not chart["can_undo"]
