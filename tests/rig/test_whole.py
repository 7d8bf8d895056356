"""The road from documents to a rig never gives up on a chart that fits together."""

from hypothesis import given
from hypothesis import strategies as st

from tests.samples.reading import charts, shapes
from thruline.document.rig_shape import RigShape
from thruline.rig.chart import Governs
from thruline.rig.resolve import resolve
from thruline.rig.unit import (
    allows,
    is_omni,
    sends,
    setting_for,
    takes_clock,
    takes_control,
    takes_program,
    way_of,
)
from thruline.rig.whole import Rig

ids = st.sampled_from(sorted(charts()))
words = st.one_of(
    st.sampled_from(["on", "off", "thru", "50%", "1A", "in", "press", "mix", "level"]),
    st.text(min_size=1, max_size=8),
)
values = st.one_of(
    words, st.integers(-5, 200), st.booleans(), st.floats(allow_nan=False, allow_infinity=False)
)


@st.composite
def documents(draw):
    """Rigs of sample units, with names that are there and names that are not."""
    names = [f"u{number}" for number in range(draw(st.integers(1, 4)))]
    units = [{"id": name, "chart": draw(ids)} for name in names]
    sockets = [f"{one['id']}.{sock.id}" for one in units for sock in shapes()[one["chart"]].socket]
    jacks = st.sampled_from([*sockets, "u0.nowhere", "nobody.midi-in"])
    for one in units:
        settings = [setting.id for setting in shapes()[one["chart"]].setting]
        one["settings"] = {key: draw(words) for key in settings if draw(st.booleans())}
    controls = [control.id for one in units for control in shapes()[one["chart"]].control]
    control = st.sampled_from([*controls, "program", "loop", "nothing"])
    goal = st.one_of(values, st.dictionaries(control, values, max_size=3))
    preset = {
        "number": draw(st.integers(0, 9)),
        "name": "x",
        **draw(st.dictionaries(st.sampled_from([*names, "nobody"]), goal, max_size=3)),
    }
    move = {
        "unit": draw(st.sampled_from(names)),
        "control": draw(control),
        "heel": draw(values),
        "toe": draw(values),
    }
    cable = {"from": draw(jacks), "to": draw(jacks), "ends": "din5/trs-3.5"}
    sweep = {"name": "s", "pedal": draw(jacks), "presets": [1], "moves": [move]}
    return {
        "format": 1,
        "rig": {"name": "x", "controller": draw(st.sampled_from([*names, "nobody"]))},
        "unit": units,
        "cable": [cable],
        "audio": {"path": ["guitar", *draw(st.lists(words, max_size=2)), "amp"]},
        "preset": [preset],
        "sweep": [sweep],
    }


def ask_everything(rig: Rig) -> None:
    """Every question that can be put to a unit."""
    for unit in rig.units.values():
        for socket in unit.chart.sockets:
            way_of(unit, socket)
            setting_for(unit, Governs.EXPRESSION_WIRING, socket)
        for governs in Governs:
            allows(unit, governs)
        for what in ("clock", "start-stop", "active-sensing", "program", "control"):
            sends(unit, what)
        assert {takes_clock(unit), takes_control(unit), takes_program(unit), is_omni(unit)} <= {
            True, False, None,
        }  # fmt: skip
        assert all(one.contacts for one in unit.chart.sockets.values())


@given(documents())
def test_nothing_that_a_rig_says_is_too_odd(document):
    shape = RigShape.model_validate(document)
    rig = resolve(shape, charts())
    ask_everything(rig)
    assert len(rig.presets) == 1
    assert all(gap.says and gap.address.steps for gap in rig.unresolved)
