import pytest

from tests.rig.charts import addresses, full_chart, problems
from tests.rigs import make_chart, midi_in, socket
from thruline.rig.check_sockets import CONNECTORS
from thruline.rig.socket import CONTACTS, SocketKind


def test_every_kind_of_socket_has_its_connectors():
    assert set(CONNECTORS) == set(SocketKind)
    assert {name for names in CONNECTORS.values() for name in names} == set(CONTACTS)


@pytest.mark.parametrize(
    ("one", "key"),
    [
        (socket("x", "midi-in", "usb-b"), "connector"),
        (socket("x", "audio-in", "din5"), "connector"),
        (socket("x", "audio-in", "ts-6.35", wiring="type-a"), "wiring"),
        (socket("x", "midi-in", "din5", wiring="type-a"), "wiring"),
        (socket("x", "midi-in", "ts-3.5", wiring="type-b"), "wiring"),
        (socket("x", "midi-out", "din5", isolated=True), "isolated"),
    ],
)
def test_parts_of_a_socket_that_contradict(one, key):
    document = make_chart(sockets=[midi_in(), one])
    assert addresses(document) == [f"socket[x].{key}"]


def test_a_two_wire_jack_may_be_a_three_contact_one():
    assert problems(make_chart(sockets=[midi_in("x", "trs-3.5", wiring="ts")])) == []


@pytest.mark.parametrize(("side", "along", "is_right"), [
    ("back", 100, True), ("back", 101, False), ("left", 90, True), ("left", 91, False),
])  # fmt: skip
def test_a_socket_sits_within_its_side(side, along, is_right):
    document = full_chart()
    document["socket"][0]["place"] = {"side": side, "along": along}
    assert (problems(document) == []) is is_right


@pytest.mark.parametrize(
    ("power", "key"),
    [
        ({"millivolts": 9000, "most-millivolts": 5000}, "power.most-millivolts"),
        ({"millivolts": 9000, "feed": "ac", "polarity": "centre-negative"}, "power.polarity"),
    ],
)
def test_power_that_contradicts_itself(power, key):
    assert addresses(full_chart(power=power)) == [key]


def test_power_needs_a_socket():
    document = make_chart(sockets=[midi_in()], power={"millivolts": 9000})
    assert addresses(document) == ["power"]


def test_an_expression_pedal_needs_a_socket_and_two_ends():
    pedal = {"wiring": "wiper-on-tip", "lowest": 90, "highest": 20}
    document = make_chart(sockets=[], channel=None, expression=pedal)
    assert addresses(document) == ["expression", "expression.lowest"]
