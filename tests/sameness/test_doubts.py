import pytest

from tests.rigs import chart_of
from tests.sameness.boards import delay_chart
from thruline.sameness.doubts import Doubts, concerned, doubts_of
from thruline.timing.fate import Fate
from thruline.timing.receive import Arrival

CHART = chart_of(delay_chart())
MIX = Arrival(0, 0, bytes((0xB2, 14, 64)))
LEVEL = Arrival(0, 0, bytes((0xB2, 7, 64)))
PROGRAM = Arrival(0, 0, bytes((0xC2, 5)))


def test_what_is_certain_leaves_no_doubts() -> None:
    assert doubts_of(CHART, [PROGRAM, MIX], [Fate.OBEYED, Fate.LOST]) == Doubts(frozenset())


def test_a_control_is_in_doubt_until_it_is_surely_set() -> None:
    unsure = [Fate.CANNOT_TELL, Fate.CANNOT_TELL, Fate.OBEYED]
    assert doubts_of(CHART, [MIX, LEVEL, MIX], unsure).controls == {"level"}
    assert doubts_of(CHART, [MIX, LEVEL, MIX], [Fate.OBEYED, *unsure[:2]]).controls == {
        "mix",
        "level",
    }


def test_a_program_that_may_be_loaded_puts_all_in_doubt() -> None:
    doubts = doubts_of(CHART, [PROGRAM], [Fate.CANNOT_TELL])
    assert doubts.program
    assert doubts.controls == set(CHART.controls)


@pytest.mark.parametrize(
    ("number", "controls"),
    [(14, {"mix"}), (16, {"time"}), (48, {"time"}), (50, set()), (6, set())],
)
def test_concerned(number: int, controls: set[str]) -> None:
    assert concerned(CHART, number) == controls


def test_data_entry_concerns_every_parameter() -> None:
    rate = {"id": "rate", "name": "Rate", "number": 300, "message": "nrpn"}
    assert concerned(chart_of(delay_chart(control=[rate])), 6) == {"rate"}
