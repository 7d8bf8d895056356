import numpy as np
import pytest

from thruline.base.errors import CannotUse
from thruline.timing.traffic import batch, sent_many, sent_once, traffic


def test_messages_are_put_in_order_of_time_and_keep_it_within_one_moment():
    some = traffic([5, 0, 5, 0], [3, 2, 3, 1], status=[0xB0, 0xC0, 0xB1, 0xF8])
    assert some.ready_us.tolist() == [0, 0, 5, 5]
    assert some.ident.tolist() == [1, 3, 0, 2]
    assert some.status.tolist() == [0xC0, 0xF8, 0xB0, 0xB1]
    assert some.has_real_time


@pytest.mark.parametrize(
    ("ready", "length", "status", "says"),
    [
        ([0], [0], [0xB0], "no bytes"),
        ([0], [-1], [0xB0], "fewer than 0"),
        ([0], [1 << 25], [0xF0], "more than"),
        ([0], [3], [0x7F], "outside 0x80"),
        ([0], [3], [0x1B0], "outside 0x80"),
        ([0], [2], [0xF8], "one byte"),
        ([1 << 60], [3], [0xB0], "285 years"),
        ([0, 0], [3], [0xB0], "agree in shape"),
        ([[0]], [[3]], [[0xB0]], "agree in shape"),
    ],
)
def test_what_cannot_be_a_message_is_refused(ready, length, status, says):
    with pytest.raises(CannotUse, match=says):
        traffic(ready, length, status=status)


def test_each_message_needs_its_name():
    with pytest.raises(CannotUse, match="1 messages, but 2 names"):
        traffic([0], [3], status=[0xB0], ident=[1, 2])


def test_padding_may_hold_anything_in_its_status():
    some = batch([[0, 0]], [[0, 3]], status=[[0, 0xB0]])
    assert not some.has_real_time
    assert not batch([[0, 0]], [[0, 3]], status=[[0xF8, 0xB0]]).has_real_time


def test_a_batch_is_a_table():
    with pytest.raises(CannotUse, match="agree in shape"):
        batch([0], [3], status=[0xB0])


def test_senders_stand_one_behind_the_other():
    one, two = traffic([1], [3], status=[0xB0]), traffic([0, 2], [3, 2], status=[0xB1, 0xC1])
    sent = sent_once([one, two])
    assert sent.ready_us.tolist() == [1, 0, 2]
    assert sent.pieces == sent.handed_over == (slice(0, 1), slice(1, 3))
    assert sent.sending is None
    assert sent_once([one]).ready_us is one.ready_us
    assert sent_once([]).ready_us.size == 0


def test_sendings_stand_a_pitch_apart():
    some = batch([[7, 3], [5, 5]], [[3, 3], [0, 2]], status=[[0xB0, 0xB1], [0, 0xC0]])
    sent = sent_many([some, some], 100)
    assert sent.ready_us.tolist() == [7, 3, 105, 105] * 2
    assert [np.asarray(one).tolist() for one in sent.handed_over] == [[1, 0, 3], [5, 4, 7]]
    assert sent.sending is not None
    assert sent.sending.tolist() == [0, 0, 1, 1] * 2


def test_tables_already_in_order_are_not_copied_out():
    some = batch([[0, 3], [5, 5]], [[3, 3], [1, 2]], status=[[0xB0, 0xB1], [0xFE, 0xC0]])
    sent = sent_many([some], 100)
    assert sent.handed_over == (slice(0, 4),)
    assert sent.has_real_time
