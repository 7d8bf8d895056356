from tests.rigs import chart_of, make_box, make_chart
from tests.samples.reading import charts
from thruline.papers.chart_behaviour import behaviour, written_forms
from thruline.rig.values import Control, NotUnderstood, read_value


def sections(chart):
    return {section.title: section for section in behaviour(chart)}


def test_labels_become_bytes_on_the_factory_channel():
    made = sections(charts()["bramley-delay"])["Programs"]
    assert made.table.rows[1] == ("31A", "1", "22", "B0 00 00  B0 20 01  C0 16")
    assert made.table.head[-1] == "On the wire, channel 1"


def test_values_in_all_forms():
    rows = {row[0]: row for row in sections(charts()["bramley-delay"])["Controls"].table.rows}
    assert rows["Mix (mix)"][2:4] == ("0 = 0 %, 64 = 50 %, 127 = 100 %", '64, "50%"')
    assert rows["Hold (hold)"][4] == "-"


def test_every_written_form_is_understood():
    for chart in charts().values():
        for control in chart.controls.values():
            for form in written_forms(control).split(", "):
                written = form.strip('"') if form.startswith('"') else int(form)
                assert not isinstance(read_value(control, written), NotUnderstood), form


def test_written_forms_without_a_scale():
    assert written_forms(Control(id="a", name="A", number=14)) == '64, "50%"'


def test_percent_are_those_of_a_display_that_counts_in_them():
    repeats = charts()["bramley-delay"].controls["repeats"]
    assert written_forms(repeats) == '64, "55%"'
    assert read_value(repeats, "55%").wire == 64


def test_what_is_not_told_while_loading():
    chart = chart_of(make_chart(settle={"ms": 25}))
    says = sections(chart)["Loading"].says
    assert says[0] == "From a program change to its sound: 25.0 ms."
    assert says[1] == "Control changes meanwhile may be lost: the chart does not say."


def test_settings_say_where_to_find_them():
    rows = sections(charts()["bramley-delay"])["Settings"].table.rows
    assert rows[0] == (
        "Output (midi-out)",
        "Own (own), Own + input (merge)",
        "Own",
        "output of midi-out",
        "Division knob to SET, Time knob to 4",
    )


def test_outputs_that_copy_have_a_skew_and_no_latency():
    rows = sections(chart_of(make_box("cox", 1, 1)))["MIDI outputs"].table.rows
    assert rows == (("out-1", "thru-wire", "in-1", "skew ?", "-", "-", "-"),)


def test_outputs_that_send_again():
    output = {"socket": "midi-out", "ways": ["merge"], "latency-us": 900, "by": "byte"}
    rows = sections(chart_of(make_chart(output=[output])))["MIDI outputs"].table.rows
    assert rows == (("midi-out", "merge", "midi-in", "0.90 ms a byte", "-", "?", "?"),)
