import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tests.opening import open_text
from thruline.app.cells import LONGEST, NotACell, cell_text, example_of, read_cell
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.rig.programs import label_at, label_to_wire
from thruline.rig.values import read_value

OPENED = open_text(sample_text(ORCHARD_STREET))
UNITS = OPENED.rig.units
DELAY = UNITS["delay"]


def test_every_cell_of_the_demonstration_reads_as_it_is_written():
    for preset in OPENED.document.data["preset"]:
        for unit in UNITS.values():
            raw = preset.get(unit.id)
            text = cell_text(raw)
            assert read_cell(unit, text, raw) == raw
            found = read_cell(unit, text)  # typed anew, without what stood there
            assert cell_text(found) == text


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("", None),
        ("   ", None),
        ("11B", "11B"),
        ("program 11B", "11B"),
        ("11B, mix 50%", {"program": "11B", "mix": "50%"}),
        ("mix=50%;11B", {"mix": "50%", "program": "11B"}),
        ("Mix 64", {"mix": 64}),
        ("MIX : 64, out", {"mix": 64, "loop": "out"}),
        ("in", "in"),
        ("in, 11B,", {"loop": "in", "program": "11B"}),
        ("time 350,0 ms", {"time": "350.0 ms"}),
    ],
)
def test_what_a_musician_types(text, wanted):
    assert read_cell(DELAY, text) == wanted


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("99Z", "no program and no control of"),
        ("mix", "wants a value"),
        ("mix 500", "outside 0 to 127"),
        ("mix loud", "not a value of Mix"),
        ("11B, 12A", "the second program"),
        ("mix 5, mix 6", "the second Mix"),
        ("x" * (LONGEST + 1), "more than"),
    ],
)
def test_what_makes_no_sense_has_a_reason_and_an_example(text, why):
    told = read_cell(DELAY, text)
    assert isinstance(told, NotACell)
    assert why in told.why
    assert not isinstance(read_cell(DELAY, told.example), NotACell)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [("mix 400%", "mix 50%"), ("mix on", "mix 50%"), ("time 9 s", "time 200 ms")],
)
def test_an_example_fits_the_control(text, wanted):
    told = read_cell(DELAY, text)
    assert isinstance(told, NotACell)
    assert told.example == wanted


def test_parts_that_stay_keep_their_form():
    raw = {"program": "11B", "mix": 64.0, "trails": True}
    assert read_cell(DELAY, "12A, mix 64, trails on", raw) == {
        "program": "12A", "mix": 64.0, "trails": True,
    }  # fmt: skip
    assert read_cell(UNITS["pre"], "4", 3) == "4"
    assert read_cell(UNITS["pre"], "3, boost on", 3) == {"program": 3, "boost": "on"}


@given(st.text(max_size=40))
@example(";")
def test_any_text_is_read_or_refused_in_words(text):
    told = read_cell(DELAY, text)
    if isinstance(told, NotACell):
        assert told.why
    elif told is not None:
        assert read_cell(DELAY, cell_text(told)) == told


@given(st.data())
def test_whatever_makes_sense_is_written_and_read_back(data):
    unit = UNITS[data.draw(st.sampled_from([one for one in UNITS if UNITS[one].chart.controls]))]
    numbering = unit.chart.programs
    raw = {}
    if numbering is not None and data.draw(st.booleans()):
        label = label_at(numbering, data.draw(st.integers(0, numbering.count - 1)))
        raw["program"] = label if label_to_wire(numbering, label) else None
    names = data.draw(st.sets(st.sampled_from(sorted(unit.chart.controls)), min_size=1, max_size=3))
    for name in sorted(names):
        control = unit.chart.controls[name]
        raw[name] = data.draw(st.integers(control.low, control.high))
        if type(read_value(control, raw[name])).__name__ != "Value":
            del raw[name]
    if len(raw) > 1:
        assert read_cell(unit, cell_text(raw)) == raw


def test_every_unit_has_an_example_that_makes_sense():
    for unit in UNITS.values():
        if unit.chart.controls or unit.chart.programs:
            assert not isinstance(read_cell(unit, example_of(unit)), NotACell)
