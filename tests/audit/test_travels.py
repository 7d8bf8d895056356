import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.audit.wide_boards import wide_board
from thruline.audit.align import align
from thruline.audit.fault import Family, Fault
from thruline.audit.meant import meant_by
from thruline.audit.travels import (
    FINE,
    FINE_ABOVE,
    NON_REGISTERED,
    code_of,
    ends_of,
    message_of,
    number_of,
    series_of,
    whole,
)
from thruline.audit.verdict import verdict
from thruline.audit.words import fault_says, words_for_keys
from thruline.bench.pretend import Trouble, pretend_capture
from thruline.compose.goals import control_bytes
from thruline.proof.case import Case
from thruline.rig.values import Control, ControlMessage

RIG = wide_board(on_recall=True)
MEANT = meant_by(Case(RIG), ["feet.midi-out"])


def control(message, number, high=16383):
    return Control(id="c", name="C", number=number, message=message, high=high)


@given(st.sampled_from([ControlMessage.RPN, ControlMessage.NRPN]), st.integers(0, 16382))
def test_a_code_says_which_control(message, number):
    code = code_of(control(message, number))
    assert message_of(code) == message_of(code | FINE) == (message, number)
    assert whole(code | FINE) == code


@given(
    st.sampled_from([ControlMessage.CC14, ControlMessage.RPN, ControlMessage.NRPN]),
    st.lists(st.integers(0, 16383), min_size=1, max_size=20),
)
def test_the_ends_of_what_was_sent_are_the_ends_that_are_meant(message, values):
    one = control(message, 20)
    sent = [bytes((0xB3, *pair)) for value in values for pair in control_bytes(one, value)]
    found = series_of(sent, pairs=frozenset({(3, 20)}), moved=frozenset({3}))
    for code, heel, toe in ends_of(one, values[0], values[-1]):
        series = found[3, code]
        assert len(series.values) == len(values)
        assert (series.values[0], series.values[-1]) == (heel, toe)


def test_a_travel_of_all_kinds_is_as_it_was_meant():
    found = verdict(MEANT, align(pretend_capture(MEANT), MEANT))
    assert found.is_clean
    assert not found.unexplained


@pytest.mark.parametrize("name", ["level", "time", "tune", "range"])
def test_heel_for_toe_is_found_for_every_kind_of_control(name):
    fault = Fault(Family.REVERSED, 0, code_of(RIG.units["a"].chart.controls[name]))
    trouble = Trouble(lost=0.002)
    capture = pretend_capture(MEANT, [fault], trouble=trouble, chance=random.Random(7).random)
    found = verdict(MEANT, align(capture, MEANT))
    assert found.best.faults == (fault,)
    assert fault_says(fault, MEANT, RIG).startswith("heel and toe are exchanged for")
    tick = found.ticks[MEANT.presets]
    assert any(name.title() in words_for_keys(MEANT, RIG)(key) for key in tick.missing)


@given(st.integers(0, 31))
def test_the_halves_of_a_pair_have_numbers_of_their_own(number):
    assert (number_of(number), number_of(number | FINE)) == (number, number + FINE_ABOVE)
    assert number_of(NON_REGISTERED | number) == NON_REGISTERED | number
