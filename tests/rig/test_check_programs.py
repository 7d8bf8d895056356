import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.rig.charts import addresses, full_chart, problems
from thruline.document.chart_shape import ProgramsShape
from thruline.rig.check_programs import count_of
from thruline.rig.programs import label_to_wire, labels, wire_to_label
from thruline.rig.read_chart import read_numbering


def ten(**more):
    return {"count": 10, "first": 1, **more}


@pytest.mark.parametrize(
    "programs",
    [
        {"slots": {"count": 128, "first": 1}},
        {"slots": {"count": 100, "first": 0, "width": 2}},
        {"banks": ten(), "slots": {"count": 12, "first": "A"}},
        {"banks": ten(), "slots": ten(), "separator": "-"},
        {"banks": ten(width=2), "slots": ten()},
        {"banks": ten(), "slots": ten(width=2)},
        {"banks": {"count": 9, "first": 1}, "slots": ten()},
        {"names": ["A", "B", "A+B"]},
        {"slots": {"count": 99, "first": 1}, "first-wire": 1,
         "special": [{"label": "BYP", "program": 0}]},
        {"slots": {"count": 300, "first": 1}, "bank-select": "lsb"},
    ],
)  # fmt: skip
def test_numberings_that_can_be_read_back(programs):
    assert problems(full_chart(programs=programs)) == []


@pytest.mark.parametrize(
    ("programs", "where"),
    [
        ({}, "programs"),
        ({"names": []}, "programs"),
        ({"names": ["A"], "slots": ten()}, "programs.names"),
        ({"names": ["A", "a"]}, "programs.names"),
        ({"names": [" A"]}, "programs.names"),
        ({"banks": ten(), "slots": ten()}, "programs"),
        ({"banks": ten(), "slots": ten(), "order": "slot-bank"}, "programs"),
        ({"banks": ten(), "slots": ten(), "separator": "0"}, "programs.separator"),
        ({"banks": ten(), "slots": ten(), "separator": " "}, "programs.separator"),
        ({"slots": {"count": 27, "first": "A"}}, "programs.slots"),
        ({"slots": {"count": 3, "first": "y"}}, "programs.slots"),
        ({"slots": {"count": 128, "first": 1}, "first-wire": 1}, "programs.first-wire"),
        ({"slots": {"count": 200, "first": 1}}, "programs.bank-select"),
        ({"slots": ten(), "first-bank": 128, "bank-select": "msb"}, "programs.bank-select"),
        ({"slots": ten(), "special": [{"label": "BYP", "program": 90, "bank": 1}]},
         "programs.bank-select"),
        ({"slots": ten(), "special": [{"label": "7", "program": 90}]}, "programs.special[7]"),
        ({"slots": ten(), "special": [{"label": "BYP", "program": 9}]}, "programs.special[BYP]"),
    ],
)  # fmt: skip
def test_numberings_that_cannot(programs, where):
    assert addresses(full_chart(programs=programs)) == [where]


def test_special_labels_are_told_apart():
    special = [{"label": "BYP", "program": 100}, {"label": "byp", "program": 100}]
    programs = {"slots": ten(), "special": special}
    found = addresses(full_chart(programs=programs))
    assert found == ["programs.special[byp]"] * 2  # its label and its number


@pytest.mark.parametrize(
    ("more", "where"),
    [({"channel": None}, "programs"), ({"receive": {"program": False}}, "programs")],
)
def test_programs_must_be_reachable(more, where):
    assert where in addresses(full_chart(**more))


def digits():
    first = st.one_of(st.integers(0, 120), st.sampled_from("AbMxZ"))
    return st.fixed_dictionaries(
        {"count": st.integers(1, 40), "first": first, "width": st.integers(1, 4)}
    )


shapes = st.fixed_dictionaries(
    {
        "slots": digits(),
        "order": st.sampled_from(["bank-slot", "slot-bank"]),
        "separator": st.sampled_from(["", "-", ":", "1"]),
        "first-wire": st.integers(0, 127),
        "per-bank": st.integers(1, 128),
        "first-bank": st.integers(0, 200),
        "bank-select": st.sampled_from(["none", "msb", "lsb", "both"]),
        "special": st.lists(
            st.fixed_dictionaries(
                {"label": st.sampled_from(["BYP", "1", "a", "1A"]), "program": st.integers(0, 127)}
            ),
            max_size=2,
        ),
    },
    optional={"banks": digits()},
)


@given(shapes)
def test_whatever_passes_leads_there_and_back(programs):
    """A numbering that is not refused is a bijection between labels and bytes."""
    if problems(full_chart(programs=programs)):
        return
    shape = ProgramsShape.model_validate(programs)
    numbering = read_numbering(shape)
    assert numbering is not None
    every = list(labels(numbering))
    wires = [label_to_wire(numbering, label) for label in every]
    assert len(every) == len(set(every)) == len(set(wires)) == count_of(shape) + len(shape.special)
    assert [wire_to_label(numbering, wire) for wire in wires if wire] == every
    assert all(0 <= wire.program < 128 and 0 <= wire.bank < 16384 for wire in wires if wire)
