from hypothesis import given
from hypothesis import strategies as st

from tests.find.boards import meant
from tests.samples.reading import ORCHARD
from thruline.find.experience import Experience
from thruline.find.kinds import Kind
from thruline.find.meant import meant_by
from thruline.find.suspects import suspects_of
from thruline.proof.case import Case
from thruline.wiring import open_file

PLAIN = suspects_of(meant())


def test_names_are_one_to_one():
    assert len({one.id for one in PLAIN}) == len(PLAIN)


def test_a_full_board_has_more_than_fifty_kinds_of_suspect():
    found = suspects_of(meant_by(Case(open_file(ORCHARD).rig)))
    assert len({one.kind for one in found}) >= 50


@given(st.sampled_from(PLAIN), st.integers(1, 50))
def test_what_was_the_culprit_before_is_likelier(one, times):
    counted = suspects_of(meant(), Experience(seen={one.id: times}))
    place = PLAIN.index(one)
    before = PLAIN[place].odds / sum(each.odds for each in PLAIN)
    after = counted[place].odds / sum(each.odds for each in counted)
    assert after > before
    assert all(each.odds > 0 for each in counted)


def test_a_kind_counts_for_all_that_have_it():
    counted = suspects_of(meant(), Experience(seen={Kind.CHANNEL_ABOVE: 3}))
    raised = {one.kind for one, plain in zip(counted, PLAIN, strict=True) if one.odds > plain.odds}
    assert raised == {Kind.CHANNEL_ABOVE}
