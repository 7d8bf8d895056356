"""How much a pedal puts on the line."""

from hypothesis import given
from hypothesis import strategies as st

from tests.proof.boards import case_of
from thruline.base.measures import BYTES_PER_SECOND
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, a_sweep, board
from thruline.proof.sweep_traffic import Traffic, busiest

MIX = 'unit = "delay", control = "mix", heel = 0, toe = 100'
TIME = 'unit = "delay", control = "time", heel = 0, toe = 9000'
PRESETS = (a_preset(1, "Overture"), a_preset(2, "Balcony"))


def traffic(*sweeps: str) -> Traffic:
    (found,) = busiest(case_of(board(DELAY, TO_DELAY, *PRESETS, *sweeps)))
    return found


def test_bytes_for_one_new_value_of_every_move() -> None:
    assert traffic(a_sweep("Swell", MIX)).bytes_a_value == 3
    assert traffic(a_sweep("Swell", MIX, TIME)).bytes_a_value == 9


def test_the_preset_on_which_most_is_moved() -> None:
    found = traffic(a_sweep("Swell", MIX), a_sweep("Build", TIME, presets="[2]"))
    assert found.preset == 2
    assert len(found.moves) == 2


def test_sweeps_of_one_name_on_two_pedals_are_two() -> None:
    twins = (a_sweep("Swell", MIX), a_sweep("Swell", TIME, pedal="feet.exp-2"))
    found = list(busiest(case_of(board(DELAY, TO_DELAY, *PRESETS, *twins))))
    assert [(one.jack.socket, one.bytes_a_value) for one in found] == [("exp-1", 3), ("exp-2", 6)]


@given(interval=st.integers(1, 100))
def test_the_share_of_the_line(interval: int) -> None:
    found = traffic(a_sweep("Swell", MIX))
    exact = 3 * 1000 / interval * 100 / BYTES_PER_SECOND
    assert exact - 2 < found.percent(interval) <= exact
