import pytest

from tests.rigs import chart_of, make_chart
from tests.samples.reading import charts
from thruline.rig.chart import Governs, Traffic, Way


@pytest.mark.parametrize(
    ("way", "forwards"),
    [(Way.THRU_WIRE, True), (Way.THRU_SOFT, True), (Way.MERGE, True), (Way.OWN, False),
     (Way.OFF, False)],
)  # fmt: skip
def test_a_way_forwards_or_not(way, forwards):
    assert way.forwards is forwards


def test_who_has_a_channel_listens():
    assert chart_of(make_chart()).listens
    assert not chart_of(make_chart(channel=None)).listens


def test_a_chart_is_called_by_maker_and_model():
    assert charts()["bramley-delay"].full_name == "Bramley Delay"


def test_words_of_documents_are_words_of_the_model():
    """The closed lists of both are the same; reading would fail on the first that differs."""
    for chart in charts().values():
        assert all(setting.governs in Governs for setting in chart.settings.values())
        assert all(output.blocks <= set(Traffic) for output in chart.outputs.values())
