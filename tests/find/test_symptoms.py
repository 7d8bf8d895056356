import pytest

from tests.find.boards import field
from thruline.base.errors import CannotUse
from thruline.find.symptoms import steps_for


@pytest.mark.parametrize(
    ("words", "on", "answer"),
    [
        ("box-2 does nothing", "look box-2 1", "nothing"),
        ("Box-2 is one too high", "look box-2 1", "one-above"),
        ("box-1 previous program", "look box-1 1", "one-below"),
        ("box-3 loads another program", "look box-3 1", "another"),
        ("wrong level on box-3", "look box-3 1", "knobs-wrong"),
        ("box-2 works now and then", "repeat box-2 1", "sometimes"),
        ("everything is dead", "glance 1", "box-1,box-2,box-3"),
        ("box-2 is dark", "power box-2", "dark"),
        ("box-1 is not in time with the clock", "tempo box-1", "free"),
        ("the pedal works backwards", "pedal feet.exp-1", "backwards"),
        ("something is wrong with box-3", "glance 1", "box-3"),
    ],
)
def test_words_of_the_trade(words, on, answer):
    found = steps_for(field(), words)
    assert [(one.on, one.answer) for one in found] == [(on, answer)]


@pytest.mark.parametrize("words", ["", "hello", "it is dead", "the toaster does nothing"])
def test_what_is_unclear_is_asked_back_with_examples(words):
    with pytest.raises(CannotUse, match=r'for example "box-1 does nothing"'):
        steps_for(field(), words)
