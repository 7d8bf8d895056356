import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.base.errors import CannotUse
from thruline.find.search import Did, Search, Step, search_from_data, search_to_data
from thruline.find.trials import Place

STEPS = st.builds(Step, st.sampled_from(Did), st.text(max_size=5), st.text(max_size=5))
SEARCHES = st.builds(
    Search,
    place=st.sampled_from(Place),
    steps=st.lists(STEPS, max_size=5).map(tuple),
    said=st.lists(st.text(max_size=9), max_size=2).map(tuple),
)


@given(SEARCHES)
def test_a_search_survives_being_kept(search):
    assert search_from_data(search_to_data(search)) == search


@given(SEARCHES, STEPS)
def test_a_step_can_be_taken_back(search, step):
    assert search.after(step).taken_back() == search
    assert search.after(step).without(len(search.steps)) == search


def test_the_words_that_an_answer_was_made_of_are_kept():
    step = Step(Did.ANSWERED, "look box-1 1", "nothing", said="box-1 does nothing")
    kept = search_from_data(search_to_data(Search(steps=(step,))))
    assert kept.steps[0].said == "box-1 does nothing"


def test_taking_back_more_than_there_is_leaves_nothing():
    assert Search().taken_back(5) == Search()


@pytest.mark.parametrize(
    "data", [{"place": "moon"}, {"steps": [{}]}, {"steps": 3}, {"steps": [{"did": "x", "on": ""}]}]
)
def test_what_is_no_search_is_refused(data):
    with pytest.raises(CannotUse, match="this is no search"):
        search_from_data(data)
