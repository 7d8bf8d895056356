import pytest

from tests.bench.clocks import StepClock
from tests.bench.test_several import Falls
from tests.routed import case_of_two_lines
from thruline.app.parted import gone_says, left_out, look_at_ways, names_of, overs_of
from thruline.app.send import preset_step
from thruline.base.errors import CannotUse
from thruline.bench.several import Way, play_parted

BOTH = ("midi-out-1", "midi-out-2")


@pytest.fixture(scope="module")
def case():
    return case_of_two_lines()


def test_what_ports_stand_for_together(case):
    one, two = (Way(Falls(), over) for over in BOTH)
    assert overs_of([two, one, two]) == ("midi-out-2", "midi-out-1")
    assert overs_of([one, Way(Falls())]) == ()
    look_at_ways(case, [one, two])
    with pytest.raises(CannotUse, match="which of them each port stands for, as in midi-out-1=USB"):
        look_at_ways(case, [one, Way(Falls())])


def test_an_output_without_a_port_is_told(case):
    one, two = (Way(Falls(), over) for over in BOTH)
    assert left_out(case, [one, two]) == ""
    name = case.rig.units["echo"].name
    assert left_out(case, [one]) == f"no port stands for midi-out-2, so nothing goes to {name}"
    assert left_out(case, [Way(Falls())]) == ""


def test_what_each_unit_was_sent_is_told(case):
    step = preset_step(case, 1, overs=BOTH)
    ways = [Way(Falls("A"), BOTH[0]), Way(Falls("B", stays=2), BOTH[1])]
    took = play_parted(step.messages, ways, StepClock())
    of = len(took[1].wanted)
    name = case.rig.units["echo"].name
    assert gone_says(took, names_of(step)) == (
        f'port "B" is gone. Over B (for midi-out-2) went 2 of {of} messages for {name}. What went '
        "over it last may not have arrived. Over A (for midi-out-1) everything went out"
    )
    ways = [Way(Falls("B", stays=0), BOTH[1])]
    says = gone_says(play_parted(step.messages, ways, StepClock()), names_of(step))
    assert says == f'port "B" is gone. Over B (for midi-out-2) went nothing for {name}'
