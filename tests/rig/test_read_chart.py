import pytest

from tests.rig.charts import full_chart
from tests.rigs import chart_of, make_chart, make_controller, midi_in, midi_out, socket
from thruline.document.chart_shape import ChartShape, ProgramsShape
from thruline.rig.chart import Footprint, Meanwhile, Origin, Traffic, Way
from thruline.rig.controller import OrderAbility
from thruline.rig.programs import BankBytes, WireProgram
from thruline.rig.read_chart import read_chart, read_numbering
from thruline.rig.socket import Spread, Wiring
from thruline.rig.values import ControlKind, ControlMessage


def test_the_head_and_where_facts_come_from():
    source = [{"fact": "settle", "from": "manual, page 14", "checked-by": "the bench"}]
    chart = chart_of(full_chart(source=source))
    assert chart.full_name == "Orchard Bramley"
    assert chart.origins == (Origin("settle", "manual, page 14", "the bench"),)
    assert chart.size == Footprint(100, 90, 50)
    assert chart.listens


def test_what_is_left_out_is_none():
    bare = chart_of({"format": 1, "chart": make_chart()["chart"]})
    absent = (bare.size, bare.channel, bare.programs, bare.settle, bare.power, bare.abilities)
    assert absent == (None,) * 6
    assert (bare.receives.program, bare.receives.note, bare.supply_milliwatts) == (None, None, None)
    assert bare.identity == ()
    assert not bare.listens


@pytest.mark.parametrize(
    ("row", "wiring"),
    [
        (midi_in("x"), Wiring.DIN),
        (midi_in("x", "trs-3.5"), Wiring.TYPE_A),
        (midi_in("x", "trs-3.5", wiring="type-b"), Wiring.TYPE_B),
        (midi_in("x", "ts-3.5"), Wiring.TS),
        (socket("x", "midi-in", "trs-2.5"), None),
        (socket("x", "expression-in", "trs-6.35"), None),
        (socket("x", "usb", "usb-c"), None),
    ],
)
def test_a_midi_socket_has_the_wiring_that_its_chart_gives(row, wiring):
    assert chart_of(make_chart(sockets=[row])).sockets["x"].wiring is wiring


def test_what_a_socket_says_of_itself():
    row = midi_out("x", marked="MIDI OUT", place={"side": "left", "along": 12})
    one = chart_of(make_chart(sockets=[row | {"spare-power": True}])).sockets["x"]
    assert (one.marked, one.place, one.spare_power) == ("MIDI OUT", Spread("left", 12), True)


def test_an_output_passes_on_every_input_but_itself():
    sockets = [midi_in("a"), midi_in("b"), midi_out("out"), socket("usb", "usb", "usb-b")]
    outputs = [{"socket": name, "ways": ["thru-soft"]} for name in ("out", "usb")]
    outputs.append({"socket": "b", "ways": ["own"], "from": ["a"]})
    chart = chart_of(make_chart(sockets=sockets, output=outputs))
    assert chart.outputs["out"].sources == ("a", "b", "usb")
    assert chart.outputs["usb"].sources == ("a", "b")
    assert chart.outputs["b"].sources == ("a",)


def test_an_output_in_full():
    output = {
        "socket": "midi-out", "ways": ["merge", "off"], "latency-us": 900, "by": "byte",
        "blocks": ["clock"], "buffer-bytes": 64, "skew-ns": 500, "running-status": True,
    }  # fmt: skip
    one = chart_of(make_chart(output=[output])).outputs["midi-out"]
    assert one.ways == (Way.MERGE, Way.OFF)
    assert (one.latency_us, one.by_byte, one.buffer_bytes, one.skew_ns) == (900, True, 64, 500)
    assert (one.blocks, one.running_status) == ({Traffic.CLOCK}, True)


def test_controls():
    controls = [
        {
            "id": "time", "name": "Time", "number": 16, "message": "cc14", "high": 16383,
            "scale": {"unit": "ms", "low": 20, "high": 2000, "law": "log", "decimals": 1},
            "stored": True, "expression": "poor", "power-up": 5, "gain": "level",
        },
        {
            "id": "type", "name": "Type", "number": 20, "kind": "steps",
            "zones": [{"label": "slow", "low": 0, "high": 63}],
        },
    ]  # fmt: skip
    chart = chart_of(full_chart(control=controls))
    time, kind = chart.controls["time"], chart.controls["type"]
    assert (time.message, time.high, time.stored) == (ControlMessage.CC14, 16383, True)
    assert time.scale is not None
    assert (time.scale.log, time.scale.decimals) == (True, 1)
    assert (time.expression, time.power_up, time.gain) == ("poor", 5, "level")
    assert (kind.kind, kind.zones[0].label, kind.stored) == (ControlKind.STEPS, "slow", None)
    assert set(chart.readings.plain) == {16, 48, 20}


def test_a_numbering():
    programs = ProgramsShape.model_validate(
        {
            "banks": {"count": 10, "first": "A"}, "slots": {"count": 5, "width": 2},
            "order": "slot-bank", "separator": "-", "first-wire": 1, "per-bank": 10,
            "first-bank": 2, "bank-select": "msb", "bank-after": "clears",
            "special": [{"label": "BYP", "program": 9, "bank": 3}],
        }
    )  # fmt: skip
    numbering = read_numbering(programs)
    assert numbering is not None
    assert numbering.slot_first
    assert numbering.bank_cleared
    assert numbering.bank_bytes is BankBytes.MSB
    assert (numbering.first_wire, numbering.per_bank, numbering.first_bank) == (1, 10, 2)
    assert numbering.special == (("BYP", WireProgram(3, 9)),)
    assert read_numbering(None) is None


def test_times_are_microseconds():
    settle = {"ms": 40, "controls": "held", "apply-ms": 5}
    one = chart_of(full_chart(settle=settle)).settle
    assert one is not None
    assert (one.load_us, one.controls, one.apply_us) == (40_000, Meanwhile.HELD, 5_000)


def test_what_it_sends_and_who_it_is():
    send = [{"what": "clock", "setting": "clock"}, {"what": "active-sensing", "factory": "on"}]
    identity = {"manufacturer": [0, 1, 2], "family": [3, 0], "member": [4, 0]}
    chart = chart_of(full_chart(send=send, identity=identity))
    assert [(one.what, one.setting, one.factory) for one in chart.sends] == [
        ("clock", "clock", False),
        ("active-sensing", None, True),
    ]
    assert chart.identity == (0, 1, 2, 3, 0, 4, 0)


def test_power():
    power = {"millivolts": 9000, "most-millivolts": 18000, "feed": "ac"}
    need = chart_of(full_chart(power=power)).power
    assert need is not None
    assert (need.millivolts, need.most_millivolts, need.ac, need.milliamps) == (
        9000, 18000, True, None,
    )  # fmt: skip
    plain = chart_of(full_chart(power={"millivolts": 9000})).power
    assert plain is not None
    assert plain.most_millivolts == 9000


def test_a_supply():
    outlet = {"socket": "dc", "millivolts": 9000, "milliamps": 100, "isolated": True}
    sockets = [socket("dc", "power-out", "barrel-2.1")]
    chart = chart_of(
        make_chart(sockets=sockets, outlet=[outlet], supply={"milliwatts": 900}, channel=None)
    )
    assert (chart.outlets["dc"].milliamps, chart.supply_milliwatts) == (100, 900)


def test_a_controller():
    controller = {
        "presets": 60, "first-preset": 0, "name-length": 8, "messages": 10, "order": "by-unit",
        "pauses": {"step-ms": 5, "longest-ms": 100}, "programs-from": 1, "sends": ["program"],
    }  # fmt: skip
    loops = [{"id": "loop-1", "send": "send", "return": "back"}]
    pedals = [{"socket": "exp", "moves": 3, "curves": ["s"], "interval-ms": 10, "on-recall": True}]
    chart = chart_of(make_controller(controller=controller, loop=loops, pedal=pedals))
    can = chart.abilities
    assert can is not None
    assert (can.presets, can.first_preset, can.order) == (60, 0, OrderAbility.BY_UNIT)
    assert can.pauses is not None
    assert (can.pauses.step_ms, can.pauses.count, can.programs_from) == (5, None, 1)
    assert (chart.loops["loop-1"].send, chart.loops["loop-1"].back) == ("send", "back")
    assert chart.pedals["exp"].curves == {"s"}
    assert chart.pedals["exp"].on_recall


def test_an_expression_pedal_and_an_adapter():
    pedal = {"wiring": "ends-swapped", "ohms": 10000, "lowest": 3}
    bond = {"from": "a", "to": "b", "contacts": {"4": "ring"}}
    chart = chart_of(make_chart(expression=pedal, bond=[bond]))
    assert chart.expression is not None
    assert (chart.expression.wiring, chart.expression.lowest) == ("ends-swapped", 3)
    assert chart.bonds[0].contacts == (("4", "ring"),)


def test_reading_is_a_function_of_the_document():
    shape = ChartShape.model_validate(full_chart())
    assert read_chart(shape) == read_chart(shape)
