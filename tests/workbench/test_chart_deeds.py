"""Charts copied, begun and filled in by deeds, as a page asks for them."""

import tomllib

import pytest

from thruline.app.desk import open_desk
from thruline.base.errors import CannotUse
from thruline.desk_wiring import keeping_for
from thruline.workbench.chart_deeds import CHART_DEEDS
from thruline.workbench.deeds import DEEDS, deed


@pytest.fixture
def keeping(folder):
    return keeping_for(folder / "good.rig.toml")


def test_every_deed_on_charts_can_be_asked_for():
    assert set(CHART_DEEDS) <= set(DEEDS)
    for name in CHART_DEEDS:
        with pytest.raises(CannotUse, match="is wanted"):
            deed(name, {})


def test_a_chart_is_begun_filled_in_ordered_and_undone(keeping, folder):
    def do(name, **asked):
        return deed(name, asked)(open_desk(keeping), keeping)

    def held():
        return tomllib.loads((folder / "charts" / "quince-box.chart.toml").read_text())

    do("make-chart", new="quince-box", maker=" Quince ", model="Box", kind="fuzz")
    assert held()["chart"]["maker"] == "Quince"
    do("chart-fact", chart="quince-box", address="chart.firmware", text="1.4")
    assert held()["chart"]["firmware"] == "1.4"
    do("chart-fact", chart="quince-box", address="chart.firmware", text="")
    assert "firmware" not in held()["chart"]
    for name, kind in (("in", "audio-in"), ("out", "audio-out")):
        texts = {"id": name, "kind": kind, "connector": "ts-6.35"}
        do("add-chart-fact", chart="quince-box", address="socket", list=True, texts=texts)
    do("move-chart-fact", chart="quince-box", address="socket[out]", by=-1)
    assert [one["id"] for one in held()["socket"]] == ["out", "in"]
    do("drop-chart-fact", chart="quince-box", address="socket[in]")
    assert [one["id"] for one in held()["socket"]] == ["out"]
    do("step-chart", chart="quince-box", back=True)
    assert [one["id"] for one in held()["socket"]] == ["out", "in"]
    do("copy-chart", chart="quince-box", new="quince-box-2")
    assert (folder / "charts" / "quince-box-2.chart.toml").is_file()
