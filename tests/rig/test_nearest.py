"""The name that was probably meant."""

from hypothesis import given
from hypothesis import strategies as st

from thruline.base.address import at
from thruline.rig.nearest import gap, nearest
from thruline.rig.whole import Lack

NAMES = ("delay", "reverb", "looper")


def test_a_slip_of_the_keyboard() -> None:
    assert nearest("dealy", NAMES) == "delay"
    assert nearest("rverb", NAMES) == "reverb"


def test_nothing_alike_is_nothing_meant() -> None:
    assert nearest("zzz", NAMES) is None
    assert nearest("delay", ()) is None


@given(name=st.sampled_from(NAMES))
def test_a_name_that_is_there_is_its_own_nearest(name: str) -> None:
    assert nearest(name, NAMES) == name


def test_a_gap_says_what_was_probably_meant() -> None:
    found = gap(Lack.UNIT, at("preset", 1), "dealy", says="there is no dealy", known=NAMES)
    assert found.says == 'there is no dealy; did you mean "delay"?'
    assert found.nearest == "delay"


def test_a_gap_without_anything_alike_only_says_so() -> None:
    found = gap(Lack.UNIT, at("preset", 1), "zzz", says="there is no zzz", known=NAMES)
    assert found.says == "there is no zzz"
