from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.find.boards import box, make_board, suspect
from tests.rigs import make_cable, make_controller, make_rig, make_unit
from thruline.base.measures import BYTE_US
from thruline.find.ear_suspects import (
    KNOWN_NOT_TO,
    ROOM_BYTES,
    after_another_status,
    ear_suspects,
    overflowed,
    with_status,
)
from thruline.find.field import field_of
from thruline.find.kinds import Kind
from thruline.find.meant import meant_by
from thruline.find.worlds import Seen, Worlds
from thruline.proof.case import Case
from thruline.timing.receive import Arrival

BOTH = {Kind.RUNNING_STATUS_MISSED, Kind.JOINED_LATE}


@cache
def terse(understands: bool = True, isolated: bool = True):
    """A controller that leaves status bytes out, into one unit."""
    feet = make_controller(
        "quarrenden",
        [{"id": "midi-out", "kind": "midi-out", "connector": "din5"}],
        controller={
            "presets": 8,
            "sends": ["program", "control"],
            "running-status": True,
            "pauses": {"step-ms": 1, "longest-ms": 500},
        },
    )
    heard = box("bramley", receive={"running-status": understands})
    heard["socket"][0]["isolated"] = isolated
    return meant_by(Case(make_rig(
        [make_unit("feet", "quarrenden"), make_unit("box-1", "bramley", channel=3)],
        [make_cable("feet.midi-out", "box-1.midi-in")],
        [feet, heard],
        preset=[{"number": 1, "name": "One", "box-1": {"program": 4, "mix": 9, "trails": "on"}}],
    )))  # fmt: skip


def _of(meant, kind):
    return next(one for one in ear_suspects(meant) if one.kind is kind)


def test_of_a_line_with_running_status_only_full_messages_are_understood():
    missed = _of(terse(), Kind.RUNNING_STATUS_MISSED)
    worlds = Worlds(terse())
    assert worlds.seen("box-1", 1) is Seen.RIGHT
    assert worlds.seen("box-1", 1, changes=missed.changes) is Seen.KNOBS_WRONG


def test_it_is_likelier_where_the_chart_says_so():
    assert _of(terse(), Kind.RUNNING_STATUS_MISSED).odds == 1
    assert _of(terse(understands=False), Kind.RUNNING_STATUS_MISSED).odds == KNOWN_NOT_TO


def test_who_joined_late_waits_for_another_kind_of_message():
    late = _of(terse(), Kind.JOINED_LATE)
    assert late.sometimes
    seen = Worlds(terse()).seen("box-1", 1, changes=late.changes)
    assert seen is Seen.KNOBS_ONLY


def test_without_running_status_nobody_misses_it():
    assert not BOTH & {one.kind for one in ear_suspects(meant_by(Case(make_board())))}


def test_the_computer_sends_every_status_byte():
    field = field_of(terse().case)
    missed = next(one for one in field.suspects if one.kind is Kind.RUNNING_STATUS_MISSED)
    row = field.outcomes[2 + field.suspects.index(missed)]
    shown = {
        one.id: field.answers[place][row[place]]
        for place, one in enumerate(field.checks)
        if row[place] != field.outcomes[0, place]
    }
    assert "send box-1 1" not in shown
    assert shown["straight box-1 1"] == "knobs-wrong"
    assert shown["status box-1"] == "first"


def _row(count, gap=0, size=3):
    times = [n * (size * BYTE_US + gap) for n in range(count)]
    return tuple(Arrival(at, at + size * BYTE_US, bytes((0xB0, 7, 1))[:size]) for at in times)


def test_what_comes_slowly_fits_in():
    assert overflowed(_row(50, gap=3000)) == _row(50, gap=3000)


def test_what_comes_close_together_does_not():
    kept = overflowed(_row(50))
    assert kept[: ROOM_BYTES // 3] == _row(50)[: ROOM_BYTES // 3]
    assert ROOM_BYTES // 3 < len(kept) < 40


@given(st.integers(0, 60), st.integers(0, 4000))
def test_what_gets_through_is_some_of_what_came_in_its_order(count, gap):
    coming = _row(count, gap)
    for through in (overflowed, with_status, after_another_status):
        left = iter(coming)
        assert all(one in left for one in through(coming))


def test_a_message_without_status_is_short_on_the_line():
    whole = _row(2)
    short = replace_end(whole[1])
    assert with_status((whole[0], short)) == whole[:1]


def replace_end(one):
    return one._replace(end_us=one.end_us - BYTE_US)


@pytest.mark.parametrize("kind", [Kind.CONTROL_RENUMBERED, Kind.NUMBER_SHARED])
def test_a_unit_with_other_numbers_shows_wrong_values(kind):
    found = suspect(kind, "box-3")
    assert found.shows == {"controls box-3": "other"}
    seen = Worlds(meant_by(Case(make_board()))).seen("box-3", 1, changes=found.changes)
    assert seen is Seen.KNOBS_WRONG


def test_an_input_without_isolator_may_want_more_than_it_gets():
    meant = terse(isolated=False)
    low = _of(meant, Kind.LOW_VOLTAGE_OUT)
    worlds = Worlds(meant)
    assert worlds.seen("box-1", 1, changes=low.changes) is Seen.NOTHING
    field = field_of(meant.case)
    row = field.outcomes[2 + [one.kind for one in field.suspects].index(Kind.LOW_VOLTAGE_OUT)]
    good = {c.id for n, c in enumerate(field.checks) if row[n] == field.outcomes[0, n]}
    assert {"send box-1 1", "listen box-1 1"} <= good
    assert Kind.LOW_VOLTAGE_OUT not in {one.kind for one in ear_suspects(terse())}
