from tests.rigs import chart_of, make_chart, make_controller, midi_in, socket
from tests.samples.reading import charts
from thruline.papers.chart_hardware import hardware


def sections(chart):
    return {section.title: section for section in hardware(chart)}


def test_a_controller():
    made = sections(charts()["braeburn-six"])
    says = made["Presets of the controller"].says
    assert says[0] == "256 presets, 1 to 256."
    assert "Pauses of 5 to 500 ms in steps of 5 ms, 8 in a preset." in says[2]
    assert made["Pedal inputs"].table.rows[0][0] == "exp-1"
    assert made["Relay loops"].table.rows[0] == ("loop-1", "send-1", "return-1")


def test_a_controller_that_says_little():
    says = sections(chart_of(make_controller()))["Presets of the controller"].says
    assert says[1] == "In a preset: ? messages, ? letters."
    assert "It cannot pause between messages." in says[2]


def test_sockets_tell_what_is_dangerous():
    fed = socket("midi-out", "midi-out", "din7", **{"spare-power": True})
    rows = sections(chart_of(make_chart(sockets=[fed])))["Sockets"].table.rows
    assert rows[0][4] == "din, POWER on contacts that MIDI leaves unused"
    assert rows[0][5] == "?"


def test_an_input_says_whether_it_is_isolated():
    for isolated, told in ((True, "isolated"), (False, "not isolated"), (None, "isolated: ?")):
        one = {"id": "midi-in", "kind": "midi-in", "connector": "din5"}
        one |= {} if isolated is None else {"isolated": isolated}
        rows = sections(chart_of(make_chart(sockets=[one])))["Sockets"].table.rows
        assert rows[0][4] == f"din, {told}"


def test_power():
    power = {"millivolts": 9000, "most-millivolts": 18000, "milliamps": 200, "start-percent": 150}
    says = sections(chart_of(make_chart(power=power)))["Power"].says
    assert says == (
        "Wants 9 to 18 V DC, polarity not told, 200 mA, 300 mA for an instant at switch-on.",
    )


def test_outlets_and_what_they_give_in_all():
    made = sections(charts()["elstar-supply"])["Outlets"]
    assert made.table.rows[0][0] == "outlet-1"
    assert made.notes


def test_a_pedal():
    assert "ohms" in sections(charts()["ribston-treadle"])["Expression pedal"].says[0]


def test_where_it_is_all_from():
    assert (
        sections(charts()["bramley-delay"])["Sources"].table.rows[0][0] == "programs, bank select"
    )
    says = sections(chart_of(make_chart()))["Sources"].says
    assert says == ("The chart does not say where its facts are from.",)


def test_a_jack_of_unknown_wiring_is_told():
    rows = sections(chart_of(make_chart(sockets=[midi_in("midi-in", "trs-3.5", wiring=None)])))
    assert rows["Sockets"].table.rows[0][4] == "wiring: ?, isolated"
