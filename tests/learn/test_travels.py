import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.audit.wide_boards import wide_board
from thruline.audit.meant import meant_by
from thruline.audit.travels import code_of
from thruline.bench.pretend_source import Source
from thruline.learn.parts import Message
from thruline.learn.travels import Moved, Point, reached, split
from thruline.proof.case import Case
from thruline.rig.sweep import values_of

RIG = wide_board()
MEANT = meant_by(Case(RIG), ["feet.midi-out"])


def travel():
    items = Source(MEANT, ()).step(MEANT.presets)
    return [Message(1000 * place, item.data) for place, item in enumerate(items)]


def test_every_kind_of_control_is_found_in_a_travel():
    found = split(travel())
    assert found.rest == ()
    moves = {move.control.id: values_of(move) for move in RIG.sweeps[0].moves}
    codes = {name: code_of(RIG.units["a"].chart.controls[name]) for name in moves}
    ends = {
        moved.code: (points[0].value, points[-1].value) for moved, points in found.tracks.items()
    }
    for name in ("level", "time", "tune", "range"):
        assert ends[codes[name]] == (moves[name][0], moves[name][-1])
    assert Moved(1, 29, is_pair=True) in found.tracks


def test_a_press_is_no_travel():
    press = [Message(at, bytes((0xB0, 20, at * 40))) for at in range(3)]
    assert split(press).tracks == {}
    assert len(split(press).rest) == 3


@given(st.integers(10, 50), st.integers(100, 127))
def test_one_value_far_from_all_around_it_is_left_out(place, far):
    points = [Message(at, bytes((0xB0, 20, at))) for at in range(80)]
    points[place] = Message(place, bytes((0xB0, 20, far)))
    (track,) = split(points).tracks.values()
    assert Point(place, far) not in track
    assert (track[0].value, track[-1].value) == (0, 79)


@pytest.mark.parametrize("moved", [Moved(1, 7), Moved(1, 29, is_pair=True)])
def test_what_a_pedal_gives_at_a_recall_is_known_again(moved):
    recall = list(Source(MEANT, ())._at(MEANT.presets, 64, {}))
    messages = [Message(place, item.data) for place, item in enumerate(recall)]
    found = reached(messages, {moved})
    move = next(one for one in RIG.sweeps[0].moves if code_of(one.control) == moved.code)
    assert found[moved].points[-1].value == values_of(move)[64]


@pytest.mark.parametrize("turned", [0, 1, 5, 9])
def test_a_turned_bit_makes_no_fine_half_of_a_control_above_31(turned):
    data = [bytes((0xB2, 52, value)) for value in range(0, 128, 2)]
    for place in range(turned):
        at = 6 * place + 3
        data[at] = bytes((0xB2, 20, data[at][2]))
    found = split([Message(1000 * at, one) for at, one in enumerate(data)])
    assert Moved(2, 52) in found.tracks
