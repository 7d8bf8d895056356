import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.rig.charts import addresses, full_chart, problems
from tests.rigs import chart_of
from thruline.rig.values import NotUnderstood, example_for, read_value, shown


def with_control(**more):
    return full_chart(control=[{"id": "x", "name": "X", "number": 20, **more}])


ZONES = [{"label": "slow", "low": 0, "high": 63}, {"label": "fast", "low": 64, "high": 127}]
DB = {"unit": "dB", "low": -60, "high": 6}


@pytest.mark.parametrize(
    "more",
    [
        {"number": 119},
        {"number": 31, "message": "cc14", "high": 16383},
        {"number": 16382, "message": "nrpn", "high": 16383},
        {"kind": "switch", "zones": ZONES},
        {"kind": "steps", "zones": ZONES},
        {"scale": DB},
        {"scale": {"unit": "s", "low": 0.3, "high": 20, "law": "log", "decimals": 1}},
        {"kind": "toggle-any"},
    ],
)
def test_controls_that_make_sense(more):
    assert problems(with_control(**more)) == []


@pytest.mark.parametrize(
    ("more", "key"),
    [
        ({"number": 120}, "number"),
        ({"number": 32, "message": "cc14", "high": 16383}, "number"),
        ({"number": 16383, "message": "rpn"}, "number"),
        ({"low": 9, "high": 9}, "low"),
        ({"high": 200}, "high"),
        ({"power-up": 10, "low": 20}, "power-up"),
        ({"kind": "switch", "high": 1}, "kind"),
        ({"kind": "switch", "message": "cc14", "high": 16383}, "kind"),
        ({"kind": "steps"}, "zones"),
        ({"kind": "momentary", "zones": ZONES}, "zones"),
        ({"kind": "steps", "zones": [*ZONES, ZONES[1]]}, "zones[fast]"),
        ({"kind": "steps", "zones": [ZONES[0], {"label": "x", "low": 60, "high": 70}]}, "zones[x]"),
        ({"kind": "steps", "zones": [{"label": "x", "low": 9, "high": 2}]}, "zones[x]"),
        ({"kind": "steps", "zones": [{"label": "x", "low": 9, "high": 200}]}, "zones[x]"),
        ({"kind": "switch", "scale": DB}, "scale"),
        ({"scale": DB | {"high": -60}}, "scale.high"),
        ({"scale": DB | {"law": "log"}}, "scale.law"),
        ({"scale": DB | {"unit": " dB"}}, "scale.unit"),
        ({"scale": DB | {"low": -60.5}}, "scale.low"),
    ],
)
def test_controls_that_do_not(more, key):
    assert f"control[x].{key}" in addresses(with_control(**more))


@pytest.mark.parametrize(
    ("first", "second", "clash"),
    [
        ({"number": 7}, {"number": 7}, True),
        ({"number": 7}, {"number": 8}, False),
        ({"number": 7, "message": "cc14", "high": 16383}, {"number": 39}, True),
        ({"number": 39}, {"number": 7, "message": "cc14", "high": 16383}, True),
        ({"number": 7, "message": "nrpn"}, {"number": 7}, False),
        ({"number": 7, "message": "nrpn"}, {"number": 7, "message": "rpn"}, False),
        ({"number": 7, "message": "nrpn"}, {"number": 7, "message": "nrpn"}, True),
        ({"number": 7, "message": "nrpn"}, {"number": 6}, True),
        ({"number": 7}, {"number": 0}, True),  # the chart's unit reads bank select
        ({"number": 7}, {"number": 32}, True),
    ],
)
def test_one_number_does_one_thing(first, second, clash):
    controls = [{"id": "a", "name": "A", **first}, {"id": "b", "name": "B", **second}]
    programs = {"slots": {"count": 4}, "bank-select": "both"}
    assert bool(problems(full_chart(control=controls, programs=programs))) is clash


@pytest.mark.parametrize(
    ("more", "where"),
    [
        ({"channel": None, "programs": None}, "control[mix]"),
        ({"receive": {"control": False}}, "receive.control"),
    ],
)
def test_controls_must_be_reachable(more, where):
    assert where in addresses(full_chart(**more))


numbers = st.one_of(st.integers(-90, 20_000), st.floats(-90, 20_000).map(lambda x: round(x, 2)))
controls = st.fixed_dictionaries(
    {
        "kind": st.sampled_from(["range", "range", "switch", "steps", "momentary", "toggle-any"]),
        "message": st.sampled_from(["cc", "cc", "cc14", "nrpn"]),
        "low": st.integers(0, 40),
        "high": st.sampled_from([127, 100, 20, 16383]),
    },
    optional={
        "scale": st.fixed_dictionaries(
            {
                "unit": st.sampled_from(["", "ms", "%", " x"]),
                "low": st.sampled_from([-60, -0.5, 0, 0.3, 20, 20_000]),
                "high": st.integers(-90, 2000),
                "law": st.sampled_from(["linear", "log"]),
                "decimals": st.integers(0, 3),
            }
        ),
        "zones": st.lists(
            st.fixed_dictionaries(
                {
                    "label": st.sampled_from(["slow", "fast", "2", "on"]),
                    "low": st.integers(0, 64),
                    "high": st.integers(64, 127),
                }
            ),
            max_size=2,
        ),
    },
)


@given(controls, st.one_of(st.booleans(), numbers, st.text(max_size=12), st.just("50%")))
def test_whatever_passes_can_be_read_and_shown(more, written):
    """No value, however written, makes a control fail that was not refused."""
    document = with_control(**more)
    if problems(document):
        return
    control = chart_of(document).controls["x"]
    value = read_value(control, written)
    if not isinstance(value, NotUnderstood):
        assert control.low <= value.wire <= control.high
    assert all(shown(control, wire) for wire in (control.low, control.high))
    assert not isinstance(read_value(control, example_for(control).strip('"')), NotUnderstood)
