import pytest

from thruline.base.errors import CannotUse
from thruline.timing.network import Copy, Feed, Output, network, sources


def listens(*heard):
    return Output(feeds=tuple(Feed(source=one) for one in heard))


def test_lines_are_played_after_all_that_they_hear():
    net = network([listens(2, 1), Copy(source=2), Output(sender=0)])
    assert net.in_order == (2, 1, 0)
    assert net.heard_by == ((), (0,), (0, 1))
    assert net.senders == 1


def test_a_line_heard_twice_by_one_output_is_listed_once():
    net = network([Output(sender=4), listens(0, 0)])
    assert net.heard_by[0] == (1,)
    assert net.senders == 5
    assert sources(net.lines[1]) == (0, 0)


@pytest.mark.parametrize(
    ("lines", "ring"),
    [
        ([listens(0)], "0"),
        ([listens(1), listens(0)], "0, 1"),
        ([Output(), listens(0, 3), Copy(source=1), listens(2)], "1, 2, 3"),
        ([listens(1), listens(2), listens(3), listens(1)], "1, 3, 2"),
    ],
)
def test_a_ring_is_named_in_the_direction_of_the_messages(lines, ring):
    with pytest.raises(CannotUse, match=f"lines {ring} feed each other in a ring"):
        network(lines)


@pytest.mark.parametrize("wrong", [listens(2), listens(-1), Copy(source=5)])
def test_a_line_that_does_not_exist_is_refused(wrong):
    with pytest.raises(CannotUse, match=r"line 1 hears line .*; lines are 0 to 1"):
        network([Output(), wrong])


@pytest.mark.parametrize(
    "wrong",
    [
        Output(sender=-1),
        Output(buffer_bytes=-1),
        Output(refresh_us=-1),
        Output(feeds=(Feed(source=0, latency_us=-1),)),
        Copy(source=0, delay_us=-1),
    ],
)
def test_nothing_is_below_zero(wrong):
    with pytest.raises(CannotUse, match="line 1 has a time, a buffer or a sender below 0"):
        network([Output(), wrong])
