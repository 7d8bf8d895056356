import pytest

from tests.rigs import Document, make_chart, make_rig, make_unit, midi_in, midi_out, socket
from thruline.rig.chart import Governs, Way
from thruline.rig.unit import (
    Unit,
    allows,
    called,
    is_omni,
    marked,
    meaning,
    outlet_of,
    outlet_positions,
    sends,
    setting_for,
    takes_clock,
    takes_control,
    takes_program,
    way_of,
)


def unit_of(chart: Document, **more) -> Unit:
    return make_rig([make_unit("delay", chart["chart"]["id"], **more)], charts=[chart]).units[
        "delay"
    ]


def a_setting(governs, **more):
    return {
        "id": "x", "name": "X", "values": ["yes", "no"], "factory": "yes", "where": "MENU",
        "governs": governs, "means": {"yes": "on", "no": "off"}, **more,
    }  # fmt: skip


def test_a_setting_has_the_factory_value_until_it_is_stated():
    chart = make_chart(setting=[a_setting("other")])
    assert unit_of(chart).settings == {"x": "yes"}
    assert unit_of(chart).stated == frozenset()
    stated = unit_of(chart, settings={"x": "no"})
    assert (stated.settings["x"], stated.stated) == ("no", {"x"})


@pytest.mark.parametrize(
    ("more", "channel", "sent_on"),
    [({}, 1, 1), ({"channel": 5}, 5, 5), ({"channel": 5, "sent-on": 6}, 5, 6)],
)
def test_the_channel_of_a_unit(more, channel, sent_on):
    unit = unit_of(make_chart(), **more)
    assert (unit.channel, unit.sent_on) == (channel, sent_on)


def test_a_unit_may_take_several_channels_or_none():
    assert unit_of(make_chart(channel={"occupies": 3}), channel=4).channels == (4, 5, 6)
    assert unit_of(make_chart(channel={})).channels == ()
    assert unit_of(make_chart(channel=None), channel=4).channels == ()


def test_what_an_output_is_set_to():
    chart = make_chart(ways=["own", "merge"])
    assert way_of(unit_of(chart), "midi-out") is Way.OWN
    assert way_of(unit_of(chart, settings={"midi-out": "merge"}), "midi-out") is Way.MERGE
    assert way_of(unit_of(chart), "midi-in") is None
    assert way_of(unit_of(make_chart(ways=["off"])), "midi-out") is Way.OFF


def test_a_way_that_cannot_be_told():
    assert way_of(unit_of(make_chart(ways=["own", "merge"], setting=[])), "midi-out") is None
    strange = a_setting("output", socket="midi-out", means={"yes": "thru-wire", "no": "own"})
    assert way_of(unit_of(make_chart(setting=[strange])), "midi-out") is None


def test_each_output_has_a_setting_of_its_own():
    sockets = [midi_in(), midi_out("a"), midi_out("b")]
    unit = unit_of(make_chart(sockets=sockets, ways=["own", "off"]), settings={"b": "off"})
    assert (way_of(unit, "a"), way_of(unit, "b")) == (Way.OWN, Way.OFF)
    found = setting_for(unit, Governs.OUTPUT, "b")
    assert found is not None
    assert (found.id, meaning(unit, found)) == ("b", "off")


@pytest.mark.parametrize(
    ("able", "setting", "taken"),
    [
        (True, None, True), (False, None, False), (None, None, None),
        (True, "yes", True), (True, "no", False), (False, "yes", False),
        (None, "no", False), (None, "yes", True),  # who has the menu item can do it
    ],
)  # fmt: skip
@pytest.mark.parametrize(
    ("takes", "key", "governs"),
    [
        (takes_program, "program", "program-receive"),
        (takes_control, "control", "control-receive"),
        (takes_clock, "clock", "clock-receive"),
    ],
)
def test_what_a_unit_takes(able, setting, taken, takes, key, governs):
    rows = [a_setting(governs)] if setting else []
    receive = {} if able is None else {key: able}
    chart = make_chart(setting=rows, receive=receive)
    assert takes(unit_of(chart, settings={"x": setting} if setting else {})) is taken


@pytest.mark.parametrize(
    ("omni", "setting", "heard"),
    [("never", None, False), ("always", None, True), ("setting", "yes", True),
     ("setting", "no", False), ("setting", None, None)],
)  # fmt: skip
def test_omni(omni, setting, heard):
    rows = [a_setting("omni")] if setting else []
    chart = make_chart(channel={"omni": omni}, setting=rows)
    assert is_omni(unit_of(chart, settings={"x": setting} if setting else {})) is heard


def test_what_a_unit_sends_by_itself():
    send = [{"what": "clock", "setting": "x"}, {"what": "active-sensing", "factory": "on"}]
    chart = make_chart(setting=[a_setting("clock-send")], send=send)
    assert sends(unit_of(chart), "clock")
    assert not sends(unit_of(chart, settings={"x": "no"}), "clock")
    assert sends(unit_of(chart), "active-sensing")
    assert not sends(unit_of(chart), "program")


def test_a_meaning_that_the_chart_does_not_give():
    chart = make_chart(setting=[a_setting("program-receive", means={"yes": "on"})])
    assert allows(unit_of(chart, settings={"x": "no"}), Governs.PROGRAM_RECEIVE) is None
    assert allows(unit_of(chart), Governs.OMNI) is None


def test_an_outlet_gives_what_its_switch_says():
    choices = [{"value": "18 V", "millivolts": 18_000, "milliamps": 50}]
    outlet = {"millivolts": 9000, "milliamps": 100, "isolated": True}
    ids = ["dc-1", "dc-2"]
    chart = make_chart(
        sockets=[socket(one, "power-out", "barrel-2.1") for one in ids],
        channel=None,
        outlet=[{"socket": "dc-1", "choice": choices} | outlet, {"socket": "dc-2"} | outlet],
        setting=[
            {"id": "volts", "name": "Volts", "values": ["9 V", "18 V"], "factory": "9 V",
             "where": "beside it", "governs": "outlet-voltage", "socket": "dc-1"},
        ],
    )  # fmt: skip
    assert outlet_of(unit_of(chart), "dc-1").millivolts == 9000
    turned = unit_of(chart, settings={"volts": "18 V"})
    gives = outlet_of(turned, "dc-1")
    assert (gives.millivolts, gives.milliamps) == (18_000, 50)
    assert outlet_of(turned, "dc-2").millivolts == 9000
    assert outlet_of(turned, "dc-3") is None
    told = [(value, one.millivolts) for _, value, one in outlet_positions(turned, "dc-1")]
    assert told == [("9 V", 9000), ("18 V", 18_000)]
    assert outlet_positions(turned, "dc-2") == ()


def test_units_of_one_name_are_called_apart():
    units = make_rig(
        [make_unit("a", "bramley"), make_unit("b", "bramley"), make_unit("c", "bramley", name="C")],
        charts=[make_chart()],
    ).units
    name = units["a"].name
    assert [called(units, one) for one in units] == [f"{name} (a)", f"{name} (b)", "C"]
    assert called(units, "gone") == "gone"


def test_a_socket_is_told_by_what_is_printed_beside_it():
    unit = unit_of(make_chart(socket=[midi_in(marked="IN"), midi_in("other")]))
    assert [marked(unit, one) for one in ("midi-in", "other", "none")] == ["IN", "other", "none"]
