import pytest

from tests.rig.charts import full_chart
from tests.rigs import chart_of, make_chart, make_controller, midi_in, socket
from thruline.rig.missing_facts import missing_facts


def lacking(document):
    return {str(one.address) for one in missing_facts(chart_of(document))}


@pytest.mark.parametrize(
    ("more", "where"),
    [
        ({}, "settle"),
        ({"settle": {"ms": 20}}, "settle.controls"),
        ({"receive": {}}, "receive.program"),
        ({"receive": {}}, "receive.control"),
        ({"receive": {}}, "receive.clock"),
        ({}, "receive.buffer-bytes"),
        ({"channel": {}}, "channel.factory"),
        ({}, "control[mix].stored"),
        ({}, "control[mix].expression"),
        ({}, "output[thru].skew-ns"),
        ({}, "output[out].latency-us"),
        ({}, "output[out].running-status"),
        ({}, "socket[input].place"),
        ({}, "power.milliamps"),
        ({"power": {"millivolts": 9000}}, "power.polarity"),
        ({"power": None}, "power"),
        ({"size": None}, "size"),
        ({}, "identity"),
        ({}, "source"),
    ],
)
def test_what_a_chart_leaves_out_is_told(more, where):
    assert where in lacking(full_chart(**more))


@pytest.mark.parametrize(
    ("more", "where"),
    [
        ({"settle": {"ms": 20, "controls": "held"}}, "settle"),
        ({"programs": None}, "settle"),
        ({"programs": None, "receive": {}}, "receive.program"),
        ({"channel": {"omni": "always"}}, "channel.factory"),
        ({"power": {"millivolts": 9000, "feed": "ac"}}, "power.polarity"),
        ({"power": {"millivolts": 9000, "digital": False}}, "power.start-percent"),
        ({}, "receive.longest-rate"),
    ],
)
def test_what_nobody_needs_is_not_asked_for(more, where):
    assert where not in lacking(full_chart(**more))


def test_a_control_that_no_program_resets_needs_its_value_after_power_up():
    control = {"id": "x", "name": "X", "number": 9, "stored": False, "expression": "good"}
    found = lacking(full_chart(control=[control]))
    assert {"control[x].power-up", "receive.longest-rate"} <= found
    assert "control[x].power-up" not in lacking(full_chart(control=[control | {"power-up": 3}]))


def test_a_momentary_control_keeps_nothing():
    control = {"id": "x", "name": "X", "number": 9, "kind": "momentary"}
    assert not any("control[x]" in where for where in lacking(full_chart(control=[control])))


def test_an_output_without_a_word_of_what_it_does():
    assert "socket[midi-out]" in lacking(make_chart(output=[], setting=[]))


def test_an_input_may_be_isolated_or_not_but_should_say():
    bare = midi_in()
    del bare["isolated"]
    assert "socket[midi-in].isolated" in lacking(make_chart(sockets=[bare]))
    assert "socket[midi-in].isolated" not in lacking(make_chart(sockets=[midi_in(isolated=False)]))


def test_a_supply():
    sockets = [socket(name, "power-out", "barrel-2.1") for name in ("a", "b", "c")]
    outlets = [
        {"socket": name, "millivolts": 9000, "milliamps": 100, "isolated": True} for name in "ab"
    ]
    found = lacking(make_chart(sockets=sockets, channel=None, outlet=outlets))
    assert {"socket[c]", "supply.milliwatts", "outlet[a].polarity"} <= found


def test_a_controller():
    pedal = {"socket": "exp"}
    sockets = [socket("exp", "expression-in", "trs-6.35")]
    controller = {"presets": 10, "pauses": {"step-ms": 1, "longest-ms": 10}}
    found = lacking(make_controller(sockets=sockets, controller=controller, pedal=[pedal]))
    assert {
        "controller.name-length",
        "controller.messages",
        "controller.running-status",
        "controller.pauses.count",
        "pedal[exp].interval-ms",
    } <= found


def test_an_expression_pedal():
    sockets = [socket("out", "expression-out", "trs-6.35")]
    pedal = {"wiring": "wiper-on-tip"}
    found = lacking(make_chart(sockets=sockets, channel=None, expression=pedal))
    assert {"expression.ohms", "expression.taper"} <= found


def test_a_missing_fact_says_what_cannot_be_told():
    (fact,) = [one for one in missing_facts(chart_of(full_chart())) if str(one.address) == "settle"]
    assert str(fact).startswith("not given: how long it loads a program; so it cannot be told when")


def test_how_midi_lies_on_a_jack():
    told = [midi_in("a", "trs-3.5"), midi_in("b", "trs-3.5", wiring=None), midi_in("c")]
    lacks = lacking(make_chart(sockets=told))
    assert "socket[b].wiring" in lacks
    assert not lacks & {"socket[a].wiring", "socket[c].wiring"}
