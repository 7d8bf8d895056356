import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from tests.timing import cases
from thruline.timing import room
from thruline.timing.arrivals import Arrivals
from thruline.timing.flow import order_of
from thruline.timing.network import Copy, Feed, Output, Way, network
from thruline.timing.play import play
from thruline.timing.traffic import sent_once

kinds = st.sampled_from([(3, 0xB0), (3, 0xB1), (2, 0xC0), (2, 0xC0), (5, 0xF0)])
messages = st.lists(st.tuples(st.integers(0, 2000), kinds), min_size=1, max_size=30)


@given(messages, st.integers(0, 40), st.booleans())
def test_crowded_are_those_that_find_too_little_room(drawn, room_bytes, running_status):
    now, rows = 0, []
    for place, (gap, (length, status)) in enumerate(drawn):
        now += gap
        rows.append((now, length, status, place))
    flow = play(
        network([Output(sender=0, running_status=running_status)]), [cases.as_traffic(rows)]
    )[0]
    ends = flow.end_us.tolist()
    expected = [
        place
        for place, (came, *_) in enumerate(rows)
        if sum(row[1] for row, end in zip(rows[: place + 1], ends, strict=False) if end > came)
        > room_bytes
    ]
    assert room.crowded(flow, room_bytes).tolist() == expected


def test_endless_room_and_copies_are_never_crowded():
    lines = network([Output(sender=0), Copy(source=0)])
    first, copy = play(lines, [cases.as_traffic([(0, 3, 0xB0, 0)])])
    assert room.crowded(first, None).size == 0
    assert room.crowded(copy, 1).size == 0
    assert room.crowded(first, 2).tolist() == [0]


def test_a_byte_wise_message_holds_only_what_has_come_and_not_left():
    lines = [
        Output(sender=0),
        Output(feeds=(Feed(source=0, way=Way.BYTES),), buffer_bytes=1),
        Output(feeds=(Feed(source=0),), buffer_bytes=100),
    ]
    flows = play(network(lines), [cases.as_traffic([(0, 100, 0xF0, 0)])])
    assert [flow.most_held for flow in flows] == [100, 1, 100]
    assert flows[1].lost is None


def test_stays_of_whole_and_byte_wise_messages():
    sent = sent_once([cases.as_traffic([(0, 3, 0xB0, 0), (0, 2, 0xC0, 1), (0, 1, 0xF8, 2)])])
    coming = Arrivals(
        order_of(sent, slice(0, 3)),
        np.array([0, 320, 400]),
        0,
        np.array([True, False, True]),
        np.array([0, 0, 0, 320, 640, 400]),
    )
    held = room.stays(
        coming,
        np.array([True, True, False]),
        sent_bytes=np.array([3, 2, 1]),
        ready_us=coming.every_byte_ready_us,
        end_us=np.array([320, 640, 960, 1600, 1920, 1280]),
    )
    assert held.position.tolist() == [0, 1, 1]
    assert held.held.tolist() == [3, 4, 5]
    assert room.crowded_stays(held, 4).tolist() == [1]
    assert room.crowded_stays(held, None).size == 0
