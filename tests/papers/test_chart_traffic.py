import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.rigs import chart_of, make_box, make_chart, make_controller, midi_in, midi_out
from tests.samples.reading import charts
from thruline.papers.chart_traffic import (
    Topic,
    has_sheet,
    modes,
    number_ranges,
    recognizes,
    sent_on,
    transmits,
)


def menu(governs, **more):
    made = {"id": "receive", "name": "PC IN", "values": ["YES", "NO"], "factory": "NO"}
    made |= {"where": "MENU > 3", "governs": governs, "means": {"YES": "on", "NO": "off"}}
    return made | more


def test_a_fact_that_is_missing_is_not_a_no():
    chart = chart_of(make_chart(receive={"program": True, "clock": False}))
    assert recognizes(chart, Topic.PROGRAM).known is True
    assert recognizes(chart, Topic.CLOCK).known is False
    assert recognizes(chart, Topic.CONTROL).known is None
    assert recognizes(chart, Topic.OTHER).known is None


def test_whoever_has_a_setting_for_it_can_take_it():
    chart = chart_of(make_chart(receive={}, setting=[menu("program-receive")]))
    told = recognizes(chart, Topic.PROGRAM)
    assert told.known is True
    assert told.remark == 'taken if PC IN is "YES" (MENU > 3; factory "NO")'


def test_without_a_way_in_nothing_is_heard():
    chart = chart_of(make_chart(sockets=[midi_out()]))
    assert all(recognizes(chart, topic).known is False for topic in Topic)


def test_without_a_way_out_nothing_is_sent():
    chart = chart_of(make_chart(sockets=[midi_in()]))
    assert all(transmits(chart, topic).known is False for topic in Topic)


def test_what_a_unit_sends_of_its_own_accord():
    sends = [{"what": "clock", "setting": "receive"}, {"what": "program", "factory": "on"}]
    chart = chart_of(make_chart(send=sends, setting=[menu("clock-send")]))
    assert transmits(chart, Topic.CLOCK).remark.startswith('sent if PC IN is "YES"')
    assert transmits(chart, Topic.PROGRAM).known is True
    assert transmits(chart, Topic.CONTROL).known is False
    assert sent_on(chart).known is None


def test_a_controller_sends_what_it_can_be_programmed_with():
    chart = chart_of(make_controller(controller={"presets": 8, "sends": ["program"]}))
    assert transmits(chart, Topic.PROGRAM).known is True
    assert transmits(chart, Topic.CONTROL).known is False
    raw = chart_of(make_controller(controller={"presets": 8, "sends": ["raw"]}))
    assert transmits(raw, Topic.OTHER).known is True
    assert transmits(raw, Topic.CLOCK).known is False


def test_boxes_that_only_pass_on_have_no_sheet():
    assert not has_sheet(chart_of(make_box("cox", 1, 4)))
    assert has_sheet(chart_of(make_chart()))
    assert has_sheet(chart_of(make_controller()))


@pytest.mark.parametrize(
    ("omni", "usual", "possible"),
    [("never", 3, {3}), ("always", 1, {1}), ("setting", None, {1, 3})],
)
def test_modes(omni, usual, possible):
    chart = chart_of(make_chart(channel={"factory": 1, "omni": omni}))
    assert modes(chart) == (usual, possible)


def test_the_mode_from_the_factory_is_read_from_the_setting():
    chart = chart_of(make_chart(channel={"factory": 1, "omni": "setting"}, setting=[menu("omni")]))
    assert modes(chart) == (3, {1, 3})


def test_every_topic_of_every_sample_is_answered():
    for chart in charts().values():
        for topic in Topic:
            assert transmits(chart, topic).known in (True, False, None)
            assert recognizes(chart, topic).known in (True, False, None)


@pytest.mark.parametrize(
    ("numbers", "told"),
    [([], ""), ([5], "5"), (range(1, 17), "1-16"), ([1, 2, 3, 9], "1-3, 9"), ([9, 1, 9], "1, 9")],
)
def test_number_ranges(numbers, told):
    assert number_ranges(numbers) == told


@given(st.sets(st.integers(0, 200)))
def test_ranges_name_every_number_and_no_other(numbers):
    named = set()
    for part in filter(None, number_ranges(numbers).split(", ")):
        low, _, high = part.partition("-")
        named |= set(range(int(low), int(high or low) + 1))
    assert named == numbers
