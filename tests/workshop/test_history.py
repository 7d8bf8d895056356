import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.base.errors import CannotUse
from thruline.workshop.history import (
    MOST_STEPS,
    History,
    gone_back,
    gone_forward,
    set_aside,
    stepped,
)

MOVES = {"step": stepped, "back": gone_back, "forward": gone_forward, "aside": set_aside}
histories = st.lists(st.sampled_from(sorted(MOVES)), max_size=60)


def walked(names: list[str]) -> History:
    history = History()
    for name in names:
        try:
            history = MOVES[name](history)
        except CannotUse:
            assert not (history.undo if name == "back" else history.redo)
    return history


@given(histories)
def test_forward_is_the_inverse_of_back(names):
    history = walked(names)
    if history.undo:
        assert gone_forward(gone_back(history)) == history
    if history.redo:
        assert gone_back(gone_forward(history)) == history


@given(histories)
def test_a_step_is_undone_to_where_it_began(names):
    history = walked(names)
    assert gone_back(stepped(history)).now == history.now


@given(histories)
def test_no_number_is_given_twice(names):
    history = walked(names)
    reachable = [history.now, *history.undo, *history.redo]
    assert len(set(reachable)) == len(reachable)
    assert stepped(history).now > max(reachable)


def test_what_was_undone_is_out_of_reach_after_a_step():
    with pytest.raises(CannotUse, match="nothing to redo"):
        gone_forward(stepped(gone_back(stepped(History()))))


def test_at_the_beginning_nothing_can_be_undone():
    with pytest.raises(CannotUse, match="nothing to undo"):
        gone_back(History())


def test_undoing_has_an_end_far_back():
    history = History()
    for _ in range(MOST_STEPS + 5):
        history = stepped(history)
    assert len(history.undo) == MOST_STEPS
    assert history.undo[-1] == history.now - 1
