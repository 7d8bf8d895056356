import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from thruline.audit.capture import Came, Ear
from thruline.base.errors import CannotUse
from thruline.bench.pedal import (
    LEAST_SPAN,
    Follower,
    Learner,
    Pedal,
    pedal_to_text,
    text_to_pedal,
)

NUMBERS = st.integers(0, 127)


def heard(*messages):
    ear = Ear()
    return [one for data in messages for one in ear.take(Came(0, 1, bytes(data)))]


def values(*numbers, control=11, channel=0):
    return heard(*((0xB0 | channel, control, one) for one in numbers))


@st.composite
def pedals(draw):
    heel, toe = draw(NUMBERS), draw(NUMBERS)
    assume(abs(heel - toe) >= LEAST_SPAN)
    return Pedal(draw(st.integers(1, 16)), draw(NUMBERS), heel, toe)


@given(pedals())
def test_a_pedal_is_written_and_read_again(pedal):
    assert text_to_pedal(pedal_to_text(pedal)) == pedal


@given(pedals(), NUMBERS, NUMBERS)
def test_its_ends_are_reached_and_between_them_it_never_turns_back(pedal, one, other):
    assert (pedal.place(pedal.heel), pedal.place(pedal.toe)) == (0, 127)
    towards = 1 if pedal.toe > pedal.heel else -1
    low, high = sorted((one * towards, other * towards))
    assert 0 <= pedal.place(low * towards) <= pedal.place(high * towards) <= 127


@pytest.mark.parametrize(
    "text", ["", "11", "1/11", "1/11:0", "0/11:0-127", "17/11:0-127", "1/128:0-127", "1/11:9-12"]
)
def test_what_is_no_pedal_is_refused_with_an_example(text):
    with pytest.raises(CannotUse, match=r"1/11:0-127|apart"):
        text_to_pedal(text)


def test_a_worn_pedal_the_other_way_round_is_learned_beside_one_that_only_shakes():
    learner = Learner()
    assert learner.moved == ""
    learner.hear(values(*range(118, 6, -4), 5, channel=2))
    learner.hear(values(64, 65, 64, 65, 64, control=7))
    learner.hear(heard((0xC0, 5), (0xB0, 0, 0), (0xB0, 0, 127), (0xB0, 0, 0), (0xB0, 0, 127)))
    assert learner.moved == "control 11 on channel 3 is at 5"
    learner.at_toe()
    learner.hear(values(*range(6, 118, 4), 119, channel=2))
    pedal = learner.at_heel()
    assert pedal == Pedal(3, 11, heel=119, toe=5)
    assert "stretched" in pedal.says
    assert [pedal.place(one) for one in (119, 127, 118, 62)] == [0, 0, 0, 64]
    assert [pedal.place(one) for one in (6, 5, 0)] == [127, 127, 127]


def test_a_pedal_that_says_nothing_or_hardly_moves():
    learner = Learner()
    with pytest.raises(CannotUse, match="nothing has come"):
        learner.at_toe()
    learner.hear(values(60, 66))
    learner.at_toe()
    learner.hear(values(62))
    with pytest.raises(CannotUse, match="only went from 62 to 66"):
        learner.at_heel()
    learner.hear(values(0, 127, 0, control=1))
    with pytest.raises(CannotUse, match="not moved to its toe first"):
        learner.at_heel()


def test_only_the_last_place_counts_and_shaking_moves_nothing():
    follower = Follower(Pedal(1, 11, heel=10, toe=110))
    assert follower.latest(heard((0xB0, 7, 60), (0xB1, 11, 60), (0xF8,))) is None
    assert follower.latest(values(20, 40, 60)) == 64
    assert follower.latest(values(61)) is None
    assert follower.latest(values(60, 61, 60)) is None
    assert follower.latest(values(63)) == 67
    assert follower.latest(values(109)) == 127
    assert follower.latest(values(11)) == 0


def test_a_heel_before_anything_has_moved_is_told():
    with pytest.raises(CannotUse, match="nothing has come from the pedal yet"):
        Learner().at_heel()
