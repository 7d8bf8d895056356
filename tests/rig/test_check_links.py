import pytest

from tests.rig.charts import addresses, full_chart, full_controller, problems
from tests.rigs import make_adapter, make_chart, midi_in, midi_out, socket


def test_an_output_names_a_socket_that_can_send():
    outputs = [{"socket": "thro", "ways": ["thru-soft"]}, {"socket": "midi-in", "ways": ["own"]}]
    found = dict(problems(full_chart(output=outputs, setting=[], send=[])))
    assert 'did you mean "thru"?' in found["output[thro]"]
    assert "output[midi-in]" in found


def test_an_output_passes_on_inputs_that_are_there():
    outputs = [{"socket": "out", "ways": ["thru-soft"], "from": ["midi-in", "input", "out"]}]
    found = addresses(full_chart(output=outputs, setting=[], send=[]))
    assert found == ["output[out].from"] * 3  # no MIDI, no input, and itself


def test_a_way_stands_once():
    outputs = [{"socket": "out", "ways": ["own", "own"]}]
    assert "output[out].ways" in addresses(full_chart(output=outputs, send=[], setting=[]))


@pytest.mark.parametrize("ins", [0, 2])
def test_an_electrical_copy_has_one_input(ins):
    sockets = [midi_out("copy"), *(midi_in(f"in-{number}") for number in range(ins))]
    document = make_chart(sockets=sockets, ways=["thru-wire"], channel=None)
    assert addresses(document) == ["output[copy].from"]


def test_an_electrical_copy_cannot_be_made_of_usb():
    sockets = [midi_out("copy"), socket("usb", "usb", "usb-b")]
    document = make_chart(sockets=sockets, ways=["thru-wire"], channel=None)
    assert addresses(document) == ["output[copy].from"]


def test_an_electrical_copy_keeps_nothing_back():
    outputs = [{"socket": "thru", "ways": ["thru-wire"], "blocks": ["clock"]}]
    assert addresses(full_chart(output=outputs, setting=[], send=[])) == ["output[thru].blocks"]


def test_outlets_and_pedals_name_sockets_of_their_kind():
    outlet = {"socket": "input", "millivolts": 9000, "milliamps": 100, "isolated": True}
    assert addresses(full_chart(outlet=[outlet])) == ["outlet[input]"]
    assert addresses(full_controller(pedal=[{"socket": "send"}])) == ["pedal[send]"]


def test_alternating_current_has_no_polarity():
    outlet = {"socket": "dc", "millivolts": 9000, "milliamps": 100, "isolated": True}
    outlet |= {"feed": "ac", "polarity": "centre-negative"}
    sockets = [socket("dc", "power-out", "barrel-2.1")]
    document = make_chart(sockets=sockets, channel=None, outlet=[outlet])
    assert addresses(document) == ["outlet[dc].polarity"]


@pytest.mark.parametrize(
    ("bond", "where"),
    [
        ({"from": "a", "to": "c", "contacts": {"4": "ring"}}, "bond[a>c].to"),
        ({"from": "a", "to": "b", "contacts": {"tip": "ring"}}, "bond[a>b].contacts"),
        ({"from": "a", "to": "b", "contacts": {"4": "4"}}, "bond[a>b].contacts"),
        ({"from": "a", "to": "b", "contacts": {}}, "bond[a>b].contacts"),
        ({"from": "a", "to": "a", "contacts": {"4": "5"}}, "bond[a>a]"),
    ],
)
def test_a_bond_joins_contacts_that_are_there(bond, where):
    document = make_adapter("spartan", {"4": "ring", "5": "tip"})
    assert problems(document) == []
    assert addresses(document | {"bond": [bond]}) == [where]


def test_a_loop_has_a_send_and_a_return_of_its_own():
    loops = [
        {"id": "loop-1", "send": "send", "return": "back"},
        {"id": "loop-2", "send": "send", "return": "send"},
    ]
    found = addresses(full_controller(loop=loops))
    assert found == ["loop[loop-2].return", "loop[loop-2]", "loop[loop-2]"]


def test_a_loop_box_needs_controls_for_its_loops():
    loops = [{"id": "loop-1", "send": "output", "return": "input"}]
    assert addresses(full_chart(loop=loops)) == ["loop[loop-1]"]
    control = {"id": "loop-1", "name": "Loop", "number": 80, "kind": "switch"}
    assert problems(full_chart(loop=loops, control=[control])) == []


@pytest.mark.parametrize(
    ("values", "wrong"),
    [(["18 V"], []), ([], []), (["12 V"], ["outlet[dc].choice"]),
     (["18 V", "18 V"], ["outlet[dc].choice"])],
)  # fmt: skip
def test_positions_of_an_outlet_are_those_of_its_switch(values, wrong):
    document = switched(values, setting=True)
    assert addresses(document) == wrong


def test_positions_want_a_switch():
    assert addresses(switched(["18 V"], setting=False)) == ["outlet[dc].choice"]
    assert addresses(switched([], setting=False)) == []


def switched(values, *, setting):
    choices = [{"value": one, "millivolts": 18_000, "milliamps": 50} for one in values]
    outlet = {"socket": "dc", "millivolts": 9000, "milliamps": 100, "isolated": True}
    switch = {"id": "volts", "name": "Volts", "values": ["9 V", "18 V"], "factory": "9 V",
              "where": "beside it", "governs": "outlet-voltage", "socket": "dc"}  # fmt: skip
    return make_chart(
        sockets=[socket("dc", "power-out", "barrel-2.1")],
        channel=None,
        outlet=[outlet | {"choice": choices}],
        setting=[switch] if setting else [],
    )
