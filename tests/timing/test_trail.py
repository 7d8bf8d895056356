from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from tests.path.boards import Board, boards
from tests.rigs import make_line
from tests.timing.played import Hand, control, full_chart, ground_of, program, run_over
from thruline.base.measures import BYTE_US
from thruline.timing.sending import Sending
from thruline.timing.trail import arrivals_at, lost_in_a_buffer, play_sending

ITEMS = st.lists(
    st.one_of(
        st.builds(program, st.just("unit-1"), st.integers(1, 4), pause_us=st.integers(0, 2000)),
        st.builds(control, st.just("unit-1"), st.integers(1, 4), pause_us=st.integers(0, 2000)),
    ),
    min_size=1,
    max_size=6,
)
HANDS = st.builds(Hand, gap_us=st.integers(0, 500), running_status=st.booleans())


def played(rig, *items, hand=None):
    ground = ground_of(rig, hand or Hand(gap_us=0, running_status=False))
    return play_sending(Sending(items), ground)


def test_a_message_is_stored_and_sent_on_from_unit_to_unit():
    trails = played(make_line(2), control("unit-2", 2))
    (there,) = arrivals_at(trails, "unit-2")
    assert [(leg.queued_us, leg.start_us, leg.end_us) for leg in there.legs] == [
        (0, 0, 3 * BYTE_US), (3 * BYTE_US, 3 * BYTE_US, 6 * BYTE_US),
    ]  # fmt: skip
    assert there.legs[0].byte_end_us == (320, 640, 960)


def test_a_copy_waits_for_nothing():
    trails = played(make_line(2, ways=("thru-wire",)), control("unit-2", 2))
    (there,) = arrivals_at(trails, "unit-2")
    assert there.legs[1].queued_us is None
    assert there.legs[1].start_us == 3


def test_running_status_leaves_a_byte_out():
    hand = Hand(gap_us=0, running_status=True)
    rig = make_line(1)
    trails = played(rig, control("unit-1", 1), control("unit-1", 1, 15), hand=hand)
    legs = [one.legs[0] for one in arrivals_at(trails, "unit-1")]
    assert [leg.status_left_out for leg in legs] == [False, False]  # the output does not use it


def test_a_full_buffer_tells_where_it_lost():
    tight = full_chart(output=[{"socket": "midi-out", "ways": ["thru-soft"], "buffer-bytes": 3}])
    rig = make_line(2, **tight)
    items = [control("unit-2", 2), program("unit-2", 2), control("unit-2", 2), control("unit-2", 2)]
    trails = played(rig, *items)
    lost = [
        (place, where, len(legs))
        for place in range(4)
        for where, _, legs in lost_in_a_buffer(trails, place)
    ]
    assert lost == [(1, "unit-1", 1)]


def test_nothing_to_play_on_is_no_trouble():
    trails = played(make_line(1, ways=("own",)), control("unit-1", 1))
    assert len(arrivals_at(trails, "unit-1")) == 1
    assert arrivals_at(trails, "feet") == ()


@given(boards(), ITEMS, HANDS)
def test_trails_say_just_what_the_units_heard(board: Board, items, hand):
    ground = ground_of(board.rig(), hand)
    run = run_over(ground, *items)
    trails = play_sending(run.sending, ground)
    for unit, heard in run.heard.items():
        there = {(one.message, one.start_us, one.end_us) for one in arrivals_at(trails, unit)}
        for one in heard:
            assert (one.place, one.arrival.start_us, one.arrival.end_us) in there


@given(boards(), ITEMS, HANDS)
def test_legs_join_up_from_the_controller_on_and_never_go_back_in_time(board: Board, items, hand):
    rig = board.rig()
    trails = played(rig, *items, hand=hand)
    for unit in rig.units:
        for one in arrivals_at(trails, unit):
            first, last = one.legs[0], one.legs[-1]
            assert first.link.start.unit == rig.controller.id
            assert first.queued_us == trails.ready_us[one.message]
            assert last.link.stop.unit == unit
            for before, after in pairwise(one.legs):
                assert before.link.stop.unit == after.link.start.unit
                assert before.start_us <= after.start_us
                assert before.end_us <= after.end_us


@given(boards(), ITEMS)
def test_every_byte_takes_its_time(board: Board, items):
    rig = board.rig()
    trails = played(rig, *items)
    for unit in rig.units:
        for one in arrivals_at(trails, unit):
            for leg in one.legs:
                ends = leg.byte_end_us
                assert len(ends) == len(items[one.message].data) - leg.status_left_out
                assert ends[0] - BYTE_US == leg.start_us
                assert ends[-1] == leg.end_us
                assert all(b - a >= BYTE_US for a, b in pairwise(ends))
