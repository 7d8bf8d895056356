from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.timing import cases, reference
from thruline.base.errors import CannotUse
from thruline.timing.network import Copy, Feed, Output, Way, network
from thruline.timing.play import play
from thruline.timing.statuses import CLOCK, FIRST_REAL_TIME
from thruline.timing.traffic import traffic


def flows_of(lines, senders):
    return play(network(lines), [cases.as_traffic(rows) for rows in senders])


def check_against_reference(lines, senders):
    """Every time, every loss and every fill as the plain event loop has them."""
    tapes = reference.play(lines, senders)
    for line, tape, flow in zip(lines, tapes, flows_of(lines, senders), strict=True):
        assert cases.rows(flow) == tape.rows()
        assert cases.lost(flow) == tape.lost
        if isinstance(line, Output):
            assert flow.most_held == tape.most_held


@pytest.mark.parametrize("seed", range(40))
def test_chains_are_as_the_event_loop_has_them(seed):
    check_against_reference(*cases.chain(seed))


@pytest.mark.parametrize("seed", range(5000, 5120))
def test_trees_are_as_the_event_loop_has_them(seed):
    check_against_reference(*cases.tree(seed))


def test_the_cases_lose_messages_and_slip_real_time_in():
    lossy = slipped = 0
    for seed in range(5000, 5120):
        flows = flows_of(*cases.tree(seed))
        lossy += any(flow.lost is not None for flow in flows)
        slipped += any(
            (flow.end_us - flow.start_us != 320 * flow.sent_bytes).any() for flow in flows
        )
    assert lossy >= 40
    assert slipped >= 20


def one(length=3, status=0xB0):
    return [traffic([1000], [length], status=[status])]


def test_a_message_takes_320_us_a_byte():
    (flow,) = play(network([Output(sender=0)]), one())
    assert cases.rows(flow) == [(0, 1000, 1960, (1320, 1640, 1960))]


def test_a_whole_message_is_received_before_it_is_passed_on():
    lines = [Output(sender=0), Output(feeds=(Feed(source=0, latency_us=100),))]
    assert play(network(lines), one())[1].end_us.tolist() == [1960 + 100 + 960]


def test_byte_by_byte_it_is_one_byte_and_the_latency_late():
    lines = [Output(sender=0), Output(feeds=(Feed(source=0, latency_us=7, way=Way.BYTES),))]
    assert play(network(lines), one())[1].end_us.tolist() == [1960 + 7 + 320]


def test_a_copy_is_a_moment_late_and_has_no_queue():
    flow = play(network([Output(sender=0), Copy(source=0, delay_us=3)]), one())[1]
    assert flow.end_us.tolist() == [1963]
    assert flow.queued_us is None
    assert flow.most_held == 0


def test_running_status_is_made_anew_by_each_output():
    lines = [
        Output(sender=0, running_status=True),
        Output(feeds=(Feed(source=0),)),
        Output(feeds=(Feed(source=1),), running_status=True),
    ]
    sent = [traffic([0, 0, 0, 0], [3, 3, 3, 3], status=[0xB0, 0xB0, 0xB1, 0xB1])]
    flows = play(network(lines), sent)
    assert [flow.sent_bytes.tolist() for flow in flows] == [[3, 2, 3, 2], [3] * 4, [3, 2, 3, 2]]


def test_system_messages_end_running_status_and_real_time_does_not():
    status = [0xB0, 0xF8, 0xB0, 0xF0, 0xB0]
    sent = [traffic([0] * 5, [3, 1, 3, 6, 3], status=status)]
    (flow,) = play(network([Output(sender=0, running_status=True)]), sent)
    assert flow.sent_bytes.tolist() == [3, 1, 2, 6, 3]


def test_status_is_refreshed_after_an_idle_time():
    sent = [traffic([0, 5000, 10001], [3, 3, 3], status=[0xB0] * 3)]
    (flow,) = play(network([Output(sender=0, running_status=True, refresh_us=5000)]), sent)
    assert flow.sent_bytes.tolist() == [3, 2, 3]


def test_real_time_slips_between_the_bytes_of_a_message():
    sent = [traffic([0, 321], [3, 1], status=[0xB0, 0xF8])]
    (flow,) = play(network([Output(sender=0, real_time_first=True)]), sent)
    assert cases.rows(flow) == [(1, 640, 960, (960,)), (0, 0, 1280, (320, 640, 1280))]


def test_what_comes_at_one_moment_goes_by_feed_and_the_own_sender_last():
    feeds = (Feed(source=1), Feed(source=0))
    lines = [Output(sender=0), Output(sender=1), Output(feeds=feeds, sender=2)]
    sent = [
        traffic([when], [3], status=[0xB0], ident=[name])
        for when, name in ((0, 10), (0, 11), (960, 12))
    ]
    assert play(network(lines), sent)[2].ident.tolist() == [11, 10, 12]


def test_a_message_that_does_not_fit_is_lost_whole():
    sent = [traffic([0, 0, 959, 960], [3, 3, 1, 3], status=[0xB0, 0xB1, 0xF6, 0xB2])]
    (flow,) = play(network([Output(sender=0, buffer_bytes=6)]), sent)
    assert cases.lost(flow) == [(2, 959)]
    assert flow.ident.tolist() == [0, 1, 3]
    assert flow.most_held == 6


def test_a_blocked_message_is_not_passed_on():
    lines = [Output(sender=0), Output(feeds=(Feed(source=0, blocks=CLOCK),))]
    sent = [traffic([0, 0], [1, 3], status=[0xF8, 0xB0])]
    assert play(network(lines), sent)[1].ident.tolist() == [1]


def test_too_few_senders_are_refused():
    with pytest.raises(CannotUse, match="2 senders"):
        play(network([Output(sender=1)]), one())


def test_no_senders_and_no_lines_are_no_trouble():
    assert play(network([]), []) == ()
    (flow,) = play(network([Output()]), [])
    assert flow.end_us.size == 0
    assert flow.most_held == 0


kinds = st.sampled_from([(3, 0xB0), (3, 0xB0), (3, 0xB5), (2, 0xC0), (1, 0xF8), (9, 0xF0)])
gaps = st.one_of(st.just(0), st.integers(0, 3000))
sendings = st.lists(st.tuples(gaps, kinds), max_size=30)
seeds = st.integers(0, 10_000)


def rows_of(sending, first=0):
    """Reference rows from gaps and kinds."""
    found, now = [], 0
    for number, (gap, (length, status)) in enumerate(sending):
        now += gap
        found.append((now, length, status, first + number))
    return found


def drawn(seed, drawn_sendings):
    """The lines of a seeded tree with traffic that hypothesis chose."""
    lines, senders = cases.tree(seed)
    chosen = [
        rows_of(drawn_sendings[n % len(drawn_sendings)], 100 * n) for n in range(len(senders))
    ]
    return lines, chosen


several = st.lists(sendings, min_size=1, max_size=3)


@given(seeds, several)
def test_drawn_traffic_is_as_the_event_loop_has_it(seed, chosen):
    check_against_reference(*drawn(seed, chosen))


@given(seeds, several, st.integers(-(10**9), 10**9))
def test_all_later_means_all_later(seed, chosen, shift):
    lines, senders = drawn(seed, chosen)
    later = [[(row[0] + shift, *row[1:]) for row in rows] for rows in senders]
    for flow, moved in zip(flows_of(lines, senders), flows_of(lines, later), strict=True):
        assert moved.ident.tolist() == flow.ident.tolist()
        assert (moved.end_us - flow.end_us == shift).all()
        assert (moved.start_us - flow.start_us == shift).all()


@given(seeds, several)
def test_bytes_never_overlap_on_a_line(seed, chosen):
    for flow in flows_of(*drawn(seed, chosen)):
        ends = sorted(flow.every_byte_end_us.tolist())
        assert all(later - earlier >= 320 for earlier, later in pairwise(ends))
        assert (flow.end_us[1:] > flow.end_us[:-1]).all()


@given(st.integers(0, 500), sendings, st.data())
def test_nothing_leaves_earlier_when_something_comes_later(seed, sending, data):
    lines, _ = cases.chain(2 * seed)
    lines = [without_limits(line) for line in lines]
    delays = data.draw(st.lists(st.integers(0, 2000), min_size=len(sending), max_size=len(sending)))
    late = [(gap + more, kind) for (gap, kind), more in zip(sending, delays, strict=True)]
    flows, moved = flows_of(lines, [rows_of(sending)]), flows_of(lines, [rows_of(late)])
    for flow, later in zip(flows, moved, strict=True):
        assert later.ident.tolist() == flow.ident.tolist() == sorted(flow.ident.tolist())
        assert (later.end_us >= flow.end_us).all()


def without_limits(line):
    """The same line with endless room, real time in its turn and no refreshed status."""
    if isinstance(line, Copy):
        return line
    return Output(feeds=line.feeds, sender=line.sender, running_status=line.running_status)


@given(seeds, several)
def test_a_buffer_as_large_as_ever_held_loses_nothing_and_one_less_does(seed, chosen):
    lines, senders = drawn(seed, chosen)
    lines = [without_limits(line) for line in lines]
    flows = flows_of(lines, senders)
    fits = [with_room(line, flow.most_held) for line, flow in zip(lines, flows, strict=True)]
    for flow, same in zip(flows, flows_of(fits, senders), strict=True):
        assert same.lost is None
        assert cases.rows(same) == cases.rows(flow)
    for index, flow in enumerate(flows):
        if flow.most_held:
            tight = [
                *lines[:index],
                with_room(lines[index], flow.most_held - 1),
                *lines[index + 1 :],
            ]
            assert flows_of(tight, senders)[index].lost is not None


def with_room(line, room):
    if isinstance(line, Copy):
        return line
    return Output(
        feeds=line.feeds, sender=line.sender, running_status=line.running_status, buffer_bytes=room
    )


@given(seeds, several)
def test_real_time_that_goes_first_is_never_lost(seed, chosen):
    lines, senders = drawn(seed, chosen)
    for line, flow in zip(lines, flows_of(lines, senders), strict=True):
        if isinstance(line, Output) and line.real_time_first and flow.lost is not None:
            assert (flow.lost.status < FIRST_REAL_TIME).all()
