import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from tests.timing.test_sending import ITEMS
from thruline.timing.sending import Item, Purpose, Sending, ready_times
from thruline.timing.tables import PADDING, tables_of

SENDINGS = st.lists(ITEMS.map(tuple).map(Sending), max_size=6)
CHANNEL = st.one_of(
    st.tuples(st.integers(0xC0, 0xDF), st.integers(0, 127)),
    st.tuples(st.integers(0x80, 0xBF), st.integers(0, 127), st.integers(0, 127)),
).map(bytes)


@given(SENDINGS, st.integers(0, 2000), st.booleans())
def test_rows_hold_each_sending_by_itself(sendings, gap, running):
    tables = tables_of(sendings, gap_us=gap, running_status=running)
    for row, sending in enumerate(sendings):
        count = len(sending.items)
        expected = ready_times(sending.items, gap_us=gap, running_status=running)
        assert tables.ready_us[row, :count].tolist() == expected
        assert tables.length[row].tolist()[:count] == [len(one.data) for one in sending.items]
        assert tables.status[row].tolist()[:count] == [one.data[0] for one in sending.items]
        assert not tables.length[row, count:].any()
        assert (tables.status[row, count:] == PADDING).all()


@given(SENDINGS, st.integers(0, 2000), st.booleans())
def test_real_time_elsewhere_changes_no_other_row(sendings, gap, running):
    clock = Sending((Item(b"\xf8", Purpose.OTHER),))
    alone = tables_of(sendings, gap_us=gap, running_status=running)
    beside = tables_of([*sendings, clock], gap_us=gap, running_status=running)
    there = alone.length > 0
    assert (alone.ready_us[there] == beside.ready_us[:-1][there]).all()


@given(st.lists(CHANNEL, min_size=1))
def test_codes_tell_channel_messages_apart(data):
    sending = Sending(tuple(Item(one, Purpose.OTHER) for one in data))
    codes = tables_of([sending], gap_us=0, running_status=False).code[0].tolist()
    assert len(set(zip(codes, data, strict=True))) == len(set(codes)) == len(set(data))


def test_there_is_a_column_even_without_messages():
    tables = tables_of([Sending(())], gap_us=0, running_status=False)
    assert all(np.shape(one) == (1, 1) for one in tables)
