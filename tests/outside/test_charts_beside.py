"""The folder of charts beside a rig."""

import pytest

from thruline.base.errors import CannotUse
from thruline.outside.charts_beside import ChartsFolder
from thruline.outside.store import open_store
from thruline.workshop.history import Cause, History, Revision


@pytest.fixture
def charts(tmp_path):
    return ChartsFolder(tmp_path, open_store(f"sqlite:///{tmp_path / 'workshop.sqlite'}"))


def test_a_chart_is_laid_where_a_rig_looks_for_it(charts, tmp_path):
    assert charts.ids() == ()
    charts.lay("quince-box", "format = 1\n")
    assert charts.ids() == ("quince-box",)
    assert (tmp_path / "charts" / "quince-box.chart.toml").read_text() == "format = 1\n"
    with pytest.raises(CannotUse, match="there already"):
        charts.lay("quince-box", "format = 2\n")
    assert charts.kept("quince-box")[0].read() == b"format = 1\n"


def test_every_chart_has_revisions_of_its_own(charts):
    for name in ("one", "two"):
        _, revisions = charts.kept(name)
        first = Revision(number=1, cause=Cause.OPENED, says="Opened")
        revisions.keep(History(), first, name)
    assert [charts.kept(name)[1].text(1) for name in ("one", "two")] == ["one", "two"]


def test_the_rigs_that_may_use_a_chart_are_named(charts, tmp_path):
    (tmp_path / "a.rig.toml").write_text('[[unit]]\nid = "x"\nchart = "quince-box"\n')
    (tmp_path / "b.rig.toml").write_text('[[unit]]\nid = "x"\nchart = "medlar-box"\n')
    (tmp_path / "c.rig.toml").write_text("[[unit")
    (tmp_path / "d.rig.toml").write_text("unit = 3")
    assert charts.users("quince-box") == ("a.rig.toml", "c.rig.toml", "d.rig.toml")


def test_a_chart_is_taken_away(charts):
    charts.lay("quince-box", "format = 1\n")
    charts.take_away("quince-box")
    assert charts.ids() == ()
