"""Parts of a board that MIDI cables join."""

from tests.rigs import (
    make_box,
    make_cable,
    make_chain,
    make_chart,
    make_controller,
    make_rig,
    make_unit,
)
from thruline.path.parts import parts_of

CHARTS = [make_controller(), make_chart(), make_box("keys", 0, 1, way="own")]
UNITS = [make_unit("feet", "braeburn")] + [make_unit(name, "bramley") for name in "abcd"]


def test_what_cables_join_is_one_part_whatever_is_set() -> None:
    cables = [*make_chain("feet", "a"), *make_chain("b", "a")]
    parts = parts_of(make_rig(UNITS, cables, CHARTS))
    assert parts["feet"] == parts["a"] == parts["b"] == 0


def test_what_hangs_nowhere_is_put_with_the_controller() -> None:
    assert set(parts_of(make_rig(UNITS, (), CHARTS)).values()) == {0}


def test_a_second_sender_has_a_part_of_its_own() -> None:
    units = [*UNITS, make_unit("keys", "keys")]
    cables = [*make_chain("feet", "a", "b"), make_cable("keys.out-1", "c.midi-in")]
    parts = parts_of(make_rig(units, cables, CHARTS))
    assert parts == {"feet": 0, "a": 0, "b": 0, "c": 3, "d": 0, "keys": 3}
