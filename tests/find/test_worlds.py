import pytest

from tests.find.boards import meant, suspect
from thruline.find.kinds import Kind
from thruline.find.scene import Plugged, Scene
from thruline.find.worlds import Came, Seen, Worlds

WORLDS = Worlds(meant())


@pytest.mark.parametrize(
    ("kind", "seen"),
    [
        (Kind.NO_POWER, Seen.NOTHING),
        (Kind.CHANNEL_ABOVE, Seen.NOTHING),
        (Kind.PROGRAMS_OFF, Seen.KNOBS_ONLY),
        (Kind.CONTROLS_OFF, Seen.KNOBS_WRONG),
        (Kind.NUMBERS_ONE_UP, Seen.ONE_ABOVE),
        (Kind.NUMBERS_ONE_DOWN, Seen.ONE_BELOW),
        (Kind.NUMBERS_MAPPED, Seen.ANOTHER),
        (Kind.OMNI_ON, Seen.ANOTHER),
        (Kind.LOADS_SLOWLY, Seen.KNOBS_WRONG),
        (Kind.ENTRY_ONE_UP, Seen.ONE_ABOVE),
        (Kind.ENTRY_MISSING, Seen.NOTHING),
        (Kind.CONTROLS_NOT_SENT, Seen.KNOBS_WRONG),
        (Kind.CONTROL_OTHER_NUMBER, Seen.KNOBS_WRONG),
        (Kind.SWITCH_INVERTED, Seen.KNOBS_WRONG),
    ],
)
def test_what_a_fault_of_the_last_unit_shows_there(kind, seen):
    changes = suspect(kind, "box-3").changes
    assert WORLDS.seen("box-3", 1) is Seen.RIGHT
    assert WORLDS.seen("box-3", 1, changes=changes) is seen


def test_where_nothing_fills_the_gap_any_more_values_come_too_early():
    changes = suspect(Kind.CONTROLS_NOT_SENT, "box-3").changes
    assert WORLDS.seen("box-1", 1, changes=changes) is Seen.KNOBS_WRONG


def test_a_cut_lead_silences_all_behind_it():
    changes = suspect(Kind.CABLE_OPEN, "box-1").changes
    seen = [WORLDS.seen(unit, 1, changes=changes) for unit in ("box-1", "box-2", "box-3")]
    assert seen == [Seen.RIGHT, Seen.NOTHING, Seen.NOTHING]


def test_a_good_lead_in_its_place_brings_them_back():
    change = suspect(Kind.CABLE_OPEN, "box-1").changes
    scene = Scene(Plugged.CABLE_SWAPPED, change[0].on)
    assert WORLDS.seen("box-3", 1, changes=change, scene=scene) is Seen.RIGHT


def test_straight_in_shows_the_unit_by_itself():
    scene = Scene(Plugged.STRAIGHT_IN, "box-3")
    cut = suspect(Kind.CABLE_OPEN, "box-1").changes
    wrong = suspect(Kind.CHANNEL_ABOVE, "box-3").changes
    assert WORLDS.seen("box-3", 1, changes=cut, scene=scene) is Seen.RIGHT
    assert WORLDS.seen("box-3", 1, changes=wrong, scene=scene) is Seen.NOTHING


def test_two_faults_at_once_are_put_into_one_rig():
    both = (
        *suspect(Kind.NUMBERS_ONE_UP, "box-3").changes,
        *suspect(Kind.CONTROLS_OFF, "box-3").changes,
        *suspect(Kind.ENTRY_ONE_UP, "box-2").changes,
    )
    assert WORLDS.seen("box-3", 1, changes=both) is Seen.ONE_ABOVE
    assert WORLDS.seen("box-2", 1, changes=both) is Seen.ONE_ABOVE


def test_what_comes_along_the_wire():
    assert WORLDS.came("box-2", 1) is Came.AS_PLANNED
    assert WORLDS.came("box-2", 1, changes=suspect(Kind.CABLE_OPEN, "feet").changes) is Came.NOTHING
    assert (
        WORLDS.came("box-2", 1, changes=suspect(Kind.ENTRY_MISSING, "box-3").changes) is Came.LESS
    )
    assert (
        WORLDS.came("box-2", 1, changes=suspect(Kind.ENTRY_ONE_UP, "box-3").changes) is Came.OTHER
    )
