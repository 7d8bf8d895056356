from tests.learn.boards import heard, meant
from thruline.learn.channels import channels_of, fitting, moved_says
from thruline.learn.learned import learn
from thruline.learn.travels import Moved

CHARTS = {one.chart.id: one.chart for one in meant().case.rig.units.values()}


def test_every_channel_and_the_chart_that_fits_it():
    units = {one.sent_on: one for one in meant().case.rig.units.values() if one.sent_on}
    found = channels_of(learn([heard(2)]))
    assert [one.channel for one in found] == [2, 3, 4, 5, 6, 7, 8, 10, 11]
    for one in found:
        assert units[one.channel].chart in fitting(one, CHARTS.values())
        assert one.says.startswith(f"channel {one.channel}: ")
    delay = next(one for one in found if one.channel == 3)
    assert [chart.id for chart in fitting(delay, CHARTS.values())] == ["bramley-delay"]
    assert "with bank select (0, 32)" in delay.says
    assert "moved by a pedal: control 52" in delay.says


def test_a_moved_control_in_words():
    assert moved_says(Moved(0, 7)) == "control 7"
    assert moved_says(Moved(0, 29, is_pair=True)) == "control 29 with 61"
    assert moved_says(Moved(0, 1 << 15 | 300)) == "NRPN 300"
    assert moved_says(Moved(0, 1 << 16 | 2)) == "RPN 2"
