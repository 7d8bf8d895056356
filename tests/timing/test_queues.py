import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from thruline.timing import queues

columns = st.lists(st.tuples(st.integers(0, 3000), st.integers(1, 9)), max_size=40)


def one_after_the_other(ready, service):
    """The recurrence as it is written in books."""
    found, left = [], -(10**9)
    for comes, takes in zip(ready, service, strict=True):
        left = max(comes, left) + takes
        found.append(left)
    return found


def arrays(rows):
    """Columns of whole numbers."""
    table = np.array(rows, np.int64).reshape(-1, 2)
    return table[:, 0], table[:, 1]


@given(columns)
def test_departures_are_the_recurrence_even_when_arrivals_do_not_rise(rows):
    ready, lengths = arrays(rows)
    expected = one_after_the_other(ready.tolist(), (320 * lengths).tolist())
    assert queues.departures(ready, 320 * lengths).tolist() == expected
    assert queues.departures_of(ready, lengths, None).tolist() == expected


@given(columns, st.integers(1, 7), st.data())
def test_blocks_change_nothing(rows, size, data):
    ready, lengths = arrays(rows)
    lengths = lengths + 1
    left_out = np.array(
        data.draw(st.lists(st.booleans(), min_size=len(rows), max_size=len(rows))), np.bool_
    )
    whole = queues.departures_of(ready, lengths, left_out)
    kept, queues.BLOCK = queues.BLOCK, size
    try:
        assert queues.departures_of(ready, lengths, left_out).tolist() == whole.tolist()
    finally:
        queues.BLOCK = kept
    assert whole.tolist() == queues.departures(ready, 320 * (lengths - left_out)).tolist()


def test_departures_work_along_the_last_axis():
    ready = np.array([[0, 0], [5000, 0]])
    assert queues.departures(ready, np.full((2, 2), 960)).tolist() == [[960, 1920], [5960, 6920]]


def test_status_is_repeated_only_on_channels_and_side_by_side():
    status = np.array([[0xB0, 0xB0, 0xF1, 0xF1, 0xB0, 0xC0], [0x90] * 6], np.uint8)
    assert queues.repeated_status(status).tolist() == [
        [False, True, False, False, False, False],
        [False, True, True, True, True, True],
    ]


@given(st.lists(st.lists(st.integers(0, 20)).map(sorted), min_size=1, max_size=4))
def test_a_merge_goes_by_time_then_stream_then_place(streams):
    keyed = [(us, rank, n) for rank, one in enumerate(streams) for n, us in enumerate(one)]
    order = queues.merge_order([np.array(one, np.int64) for one in streams])
    assert [keyed[place] for place in order.tolist()] == sorted(keyed)


def one_byte_at_a_time(plain, urgent):
    """Urgent bytes first, whenever the wire is free."""
    plain, urgent = list(plain), list(urgent)
    ends = ([], [])
    now = -(10**9)
    while plain or urgent:
        now = max(now, min(([plain[0]] if plain else []) + ([urgent[0]] if urgent else [])))
        first = bool(urgent) and urgent[0] <= now
        (urgent if first else plain).pop(0)
        now += 320
        ends[first].append(now)
    return ends


@given(st.lists(st.integers(0, 9000)).map(sorted), st.lists(st.integers(0, 9000)).map(sorted))
def test_slots_let_urgent_bytes_go_first(plain, urgent):
    found = queues.slots(np.array(plain, np.int64), np.array(urgent, np.int64))
    assert tuple(one.tolist() for one in found) == one_byte_at_a_time(plain, urgent)


@given(st.lists(st.integers(1, 9), min_size=1), st.integers(0, 30))
def test_the_last_that_must_have_left(lengths, room):
    for place, last in enumerate(queues.last_to_have_left(np.array(lengths), room).tolist()):
        assert sum(lengths[last + 1 : place + 1]) <= room
        assert last == -1 or sum(lengths[last : place + 1]) > room


stays = st.lists(st.tuples(st.integers(0, 50), st.integers(1, 20), st.integers(1, 5)), min_size=1)


@given(stays)
def test_held_at_a_coming_counts_all_that_is_there(rows):
    begin, lasts, amount = np.array(rows).T
    held = queues.held_at_coming(begin, begin + lasts, amount)
    assert held.tolist() == [
        sum(size for start, time, size in rows if start <= now < start + time) for now, _, _ in rows
    ]
