import pytest

from thruline.path.outcome import Outcome, Quality


@pytest.mark.parametrize("outcome", Outcome)
def test_every_outcome_has_its_sentence_and_quality(outcome):
    assert outcome.says.endswith(".")
    assert outcome.quality in Quality


def test_what_cannot_be_told_is_not_good():
    untold = {outcome for outcome in Outcome if outcome.value.endswith("untold")}
    assert untold == {one for one in Outcome if one.quality is Quality.CANNOT_TELL}
