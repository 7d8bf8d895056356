import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.audit.boards import plan
from tests.audit.wide_boards import wide_board
from thruline.audit.build import key_of
from thruline.audit.meant import CONTROL, meant_by, parts_of
from thruline.audit.press import TRAVEL_LEAST, Press, keys_at
from thruline.audit.travels import FINE, NON_REGISTERED, SELECTORS, number_of, series_of
from thruline.proof.case import Case

MEANT = plan()
WIDE = meant_by(Case(wide_board()), ("feet.midi-out",))
NARROW, PEDAL, OTHER = 0xB2, 41, 0xB1


def press(step, *messages, tap=0):
    return Press(step=step, at_us=0, heard=tuple((tap, one) for one in messages))


def moves(status, number, count=TRAVEL_LEAST):
    return [bytes((status, number, value)) for value in range(count)]


def is_travel(key):
    return bool(key >> 39 & 1)


def test_a_pedal_that_moves_beside_a_preset_is_no_part_of_it():
    assert not list(keys_at(press(0, *moves(NARROW, PEDAL)), MEANT))


def test_on_a_channel_without_a_pedal_every_message_counts():
    keys = list(keys_at(press(0, *moves(OTHER, PEDAL, 40)), MEANT))
    assert len(set(keys)) == 40


@pytest.mark.parametrize("status", [NARROW, OTHER])
def test_while_a_pedal_moves_any_travel_is_told_by_its_ends(status):
    (key,) = keys_at(press(MEANT.presets, *moves(status, 7)), MEANT)
    assert is_travel(key)


def every_control_followed(press, meant):
    """As `keys_at`, but for not asking first whether a pedal moves anything on a channel."""
    rows, step = meant.rows, press.step
    travels, is_sweep = rows.travel, step >= meant.presets
    pedals = {*zip(rows.channel[travels].tolist(), rows.first[travels].tolist(), strict=True)}

    def sets(channel, code):
        mine = (rows.step == step) & (rows.channel == channel) & (rows.first == number_of(code))
        return bool((mine & (rows.kind == CONTROL) & ~travels).any())

    def plain(tap, data):
        kind, channel, *numbers = parts_of(data)
        return key_of(step, tap, travel=0, kind=kind, channel=channel, numbers=tuple(numbers))

    pairs = frozenset((at, code) for at, code in pedals if (at, code | FINE) in pedals)
    moved = {at for at, code in pedals if code >= NON_REGISTERED}
    if not is_sweep:
        moved = {at for at in moved if not any(sets(at, code) for code in SELECTORS)}
    for tap in range(len(meant.taps)):
        heard = [data for at, data in press.heard if at == tap]
        yield from (plain(tap, data) for data in heard if data[0] >> 4 != CONTROL)
        found = series_of(heard, pairs=pairs, moved=frozenset(moved))
        for (channel, code), series in found.items():
            is_long, values = len(series.values) >= TRAVEL_LEAST, series.values
            if is_sweep and is_long:
                ends = (code, values[0] << 7 | values[-1])
                yield key_of(step, tap, travel=1, kind=CONTROL, channel=channel, numbers=ends)
            elif (channel, code) not in pedals or not (is_long or not sets(channel, code)):
                yield from (plain(tap, data) for data in series.raw)


numbers = st.sampled_from([6, 7, 20, 21, 29, 38, 41, 61, 98, 99, 100, 101])
controls = st.tuples(st.integers(0xB0, 0xB4), numbers, st.integers(0, 127)).map(bytes)
runs = st.tuples(st.integers(0xB0, 0xB4), numbers, st.integers(1, 9)).map(lambda one: moves(*one))
programs = st.tuples(st.integers(0xC0, 0xC4), st.integers(0, 127)).map(bytes)
messages = st.lists(runs | st.lists(controls | programs, max_size=6), max_size=8).map(
    lambda some: [data for one in some for data in one]
)


@given(st.sampled_from([MEANT, WIDE]), messages, st.data())
def test_following_every_control_would_give_the_same(meant, heard, data):
    step = data.draw(st.integers(0, len(meant.steps) - 1))
    tap = data.draw(st.integers(0, len(meant.taps) - 1))
    one = press(step, *heard, tap=tap)
    assert np.array_equal(sorted(keys_at(one, meant)), sorted(every_control_followed(one, meant)))
