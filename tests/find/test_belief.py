import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.find.boards import field, shown, suspect
from thruline.find.belief import believe
from thruline.find.kinds import Kind
from thruline.find.search import Did, Search, Step

IDS = [one.id for one in field().checks if one.answers]
ANSWERS = st.sampled_from(IDS).flatmap(
    lambda name: st.sampled_from(list(field().check(name).answers)).map(
        lambda answer: Step(Did.ANSWERED, name, answer)
    )
)


def _seen(suspects, *ids):
    steps = [Step(Did.ANSWERED, name, shown(suspects, name)) for name in ids]
    return believe(field(), Search(steps=tuple(steps)))


@given(st.lists(ANSWERS, max_size=6))
@settings(max_examples=40)
def test_whatever_was_answered_all_sums_to_one(steps):
    belief = believe(field(), Search(steps=tuple(steps)))
    assert belief.weights.sum() + belief.pair_weights.sum() == pytest.approx(1)
    assert all(one <= 1 + 1e-9 for one in belief.by_mend().values())


def test_what_was_seen_points_at_the_culprit():
    one = suspect(Kind.CHANNEL_ABOVE, "box-2")
    belief = _seen(one, "look box-2 1", "channel box-2")
    assert next(iter(belief.by_mend())) == one.mend_key
    assert belief.by_mend()[one.mend_key] > 0.9


def test_the_same_answer_again_counts_for_less():
    step = Step(Did.ANSWERED, "look box-2 1", "nothing")
    once, twice, thrice = (
        believe(field(), Search(steps=(step,) * count)).nothing for count in (1, 2, 3)
    )
    assert once > twice > thrice
    assert once / twice > twice / thrice


def test_two_faults_explain_what_one_cannot():
    first, second = suspect(Kind.CHANNEL_ABOVE, "box-1"), suspect(Kind.PEDAL_REVERSED)
    steps = [
        Step(Did.ANSWERED, "channel box-1", shown(first, "channel box-1")),
        Step(Did.ANSWERED, "look box-1 1", shown(first, "look box-1 1")),
        Step(Did.ANSWERED, "pedal feet.exp-1", shown(second, "pedal feet.exp-1")),
        Step(Did.ANSWERED, "pedal feet.exp-1", shown(second, "pedal feet.exp-1")),
    ]
    belief = believe(field(), Search(steps=tuple(steps)))
    assert belief.both > 0.5
    likely = list(belief.by_mend())[:2]
    assert set(likely) == {first.mend_key, second.mend_key}


def test_after_a_mend_the_thing_is_hardly_wrong_any_more():
    one = suspect(Kind.NO_POWER, "box-2")
    step = Step(Did.ANSWERED, "power box-2", "dark")
    before = believe(field(), Search(steps=(step,))).by_mend()[one.mend_key]
    search = Search(steps=(step, Step(Did.MENDED, one.mend_key)))
    after = believe(field(), search)
    assert after.by_mend()[one.mend_key] < before / 5
    assert after.mended == (one.mend_key,)
    assert after.nothing > 0.3
