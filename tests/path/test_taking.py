import pytest

from tests.rigs import make_chart, make_rig, make_unit
from thruline.path.outcome import Outcome
from thruline.path.taking import is_addressed, taken, takes, why_taken


def unit_of(chart, **unit):
    rows = [make_unit("delay", "bramley", **unit)]
    return make_rig(rows, charts=[chart]).units["delay"]


def switch(governs):
    named = {"id": "x", "name": "X", "where": "MENU", "governs": governs}
    return [{**named, "values": ["on", "off"], "factory": "on"}]


@pytest.mark.parametrize(
    ("rule", "channel", "addressed"),
    [
        ({}, 3, True),
        ({}, 4, False),
        ({"occupies": 2}, 4, True),
        ({"occupies": 2}, 5, False),
        ({"omni": "always"}, 9, True),
        ({"omni": "setting"}, 9, None),
        ({"omni": "setting"}, 3, True),
    ],
)
def test_whom_a_channel_addresses(rule, channel, addressed):
    assert is_addressed(unit_of(make_chart(channel=rule), channel=3), channel) is addressed


def test_a_unit_whose_channel_is_not_known():
    unit = unit_of(make_chart(channel={}))
    assert is_addressed(unit, 3) is None
    assert taken(unit, 0xC2) is Outcome.CHANNEL_UNTOLD


@pytest.mark.parametrize(
    ("status", "answer"),
    [
        (0xC0, True), (0xB0, False), (0x90, True), (0x80, True), (0xA0, None), (0xE0, None),
        (0xF0, True), (0xF8, False), (0xFA, False), (0xF2, None), (0xFE, None),
    ],
)  # fmt: skip
def test_which_kinds_a_unit_takes(status, answer):
    receive = {"program": True, "control": False, "note": True, "clock": False}
    receive["system-exclusive"] = True
    assert takes(unit_of(make_chart(receive=receive)), status) is answer


def test_a_setting_can_refuse_system_exclusive():
    chart = make_chart(setting=switch("system-exclusive-receive"))
    assert takes(unit_of(chart), 0xF0) is True
    assert takes(unit_of(chart, settings={"x": "off"}), 0xF0) is False


@pytest.mark.parametrize(
    ("status", "settings", "outcome"),
    [
        (0xC2, {}, Outcome.TAKEN),
        (0xC3, {}, Outcome.NOT_FOR_IT),
        (0xC2, {"x": "off"}, Outcome.REFUSED),
        (0xE2, {}, Outcome.TAKING_UNTOLD),
        (0xF8, {}, Outcome.TAKEN),
    ],
)
def test_what_becomes_of_a_message(status, settings, outcome):
    chart = make_chart(setting=switch("program-receive"))
    assert taken(unit_of(chart, channel=3, settings=settings), status) is outcome


def test_a_box_that_only_passes_on_listens_to_nothing():
    box = unit_of(make_chart(channel=None, receive={}))
    assert taken(box, 0xC0) is taken(box, 0xF8) is Outcome.NO_LISTENER
    assert taken(unit_of(make_chart(channel=None, receive={"clock": True})), 0xF8) is Outcome.TAKEN


def test_the_words_name_the_channels():
    unit = unit_of(make_chart(channel={"occupies": 2}), channel=3)
    assert why_taken(unit, Outcome.NOT_FOR_IT) == "delay hears channel 3, 4 only"
    assert why_taken(unit, Outcome.TAKEN) == Outcome.TAKEN.says
