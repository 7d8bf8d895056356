import pytest

from thruline.base.errors import CannotUse
from thruline.midi.message import ControlChange
from thruline.midi.numbers import (
    after_coarse,
    after_fine,
    controls_to_value,
    pair_to_value,
    value_to_controls,
    value_to_pair,
)


def test_value_and_pair_are_inverse_over_all_values() -> None:
    pairs = [value_to_pair(value) for value in range(16384)]
    assert [pair_to_value(*pair) for pair in pairs] == list(range(16384))
    assert len(set(pairs)) == 16384


def test_value_and_controls_are_inverse_over_all_values() -> None:
    for value in range(16384):
        control = value % 32
        messages = value_to_controls(3, control, value=value)
        assert controls_to_value(*messages) == (3, control, value)


def test_the_coarse_half_goes_first() -> None:
    assert value_to_controls(1, 7, value=129) == (ControlChange(1, 7, 1), ControlChange(1, 39, 1))


def test_a_bank_is_a_pair() -> None:
    assert value_to_controls(1, 0, value=129) == (ControlChange(1, 0, 1), ControlChange(1, 32, 1))


@pytest.mark.parametrize("value", [-1, 16384])
def test_a_value_of_more_than_14_bits_is_refused(value: int) -> None:
    with pytest.raises(CannotUse, match="carries 0 to 16383"):
        value_to_pair(value)


@pytest.mark.parametrize("pair", [(128, 0), (0, 128), (-1, 0), (0, -1)])
def test_halves_are_data_bytes(pair: tuple[int, int]) -> None:
    with pytest.raises(CannotUse, match="half"):
        pair_to_value(*pair)


@pytest.mark.parametrize("control", [-1, 32, 64, 127])
def test_other_controls_have_no_fine_half(control: int) -> None:
    with pytest.raises(CannotUse, match="has no fine half"):
        value_to_controls(1, control, value=0)


@pytest.mark.parametrize(
    "fine", [ControlChange(2, 39, 0), ControlChange(1, 38, 0), ControlChange(1, 7, 0)]
)
def test_halves_of_different_controls_are_refused(fine: ControlChange) -> None:
    with pytest.raises(CannotUse, match="is not the fine half of control 7 on channel 1"):
        controls_to_value(ControlChange(1, 7, 0), fine)


def test_the_right_order_arrives_and_the_wrong_order_loses_the_fine_half() -> None:
    for value in range(16384):
        coarse, fine = value_to_pair(value)
        assert after_fine(after_coarse(coarse), fine) == value
        # The fine half came first, on top of whatever was held.
        assert after_coarse(coarse) == coarse * 128


def test_a_fine_half_alone_keeps_the_coarse_one() -> None:
    assert after_fine(5 * 128 + 17, 3) == 5 * 128 + 3


def test_coarse_halves_alone_do_not_reach_the_top() -> None:
    assert after_coarse(127) == 16256
