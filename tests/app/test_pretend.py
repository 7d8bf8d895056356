import pytest

from tests.audit.boards import board
from thruline.app.audit import plan_for
from thruline.app.pretend import FORMS, fault_of, play_pretend
from thruline.audit.fault import Family, Fault
from thruline.base.errors import CannotUse
from thruline.bench.pretend import Trouble
from thruline.proof.case import Case

MEANT = plan_for(Case(board()), (), at=("c.midi-out",)[:0], before=Case(board(changed=(3,))))
WORDS = {"PRESET": "3", "UNIT.SOCKET": "b.midi-out", "UNIT": "b"}


def order(form):
    return " ".join(WORDS.get(word, word) for word in form.split())


@pytest.mark.parametrize("family", list(Family))
def test_every_family_can_be_ordered(family):
    assert fault_of(order(FORMS[family]), MEANT).family is family


def test_numbers_are_those_that_people_say():
    assert fault_of("channel b 5", MEANT) == Fault(Family.CHANNEL, 1, 4)
    assert fault_of("slots 3 -1", MEANT) == Fault(Family.SLOTS, 2, -1)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("numbring b +1", 'did you mean "numbering"'),
        ("numbering b", "it is ordered like this: numbering UNIT"),
        ("numbering q +1", 'there is no unit "q"'),
        ("numbering b one", "no whole number"),
        ("numbering b 0", "outside -1 to 1"),
        ("channel b 17", "outside 1 to 16"),
        ("slots 99 +1", 'there is no preset "99"'),
        ("stale 4", "is as it was before"),
        ("shut b.midi-in anything", "no output that passes"),
        ("filter notes", "none of anything"),
        ("", "no mistake that can be ordered"),
        (" ", "no mistake that can be ordered"),
    ],
)
def test_what_cannot_be_ordered(text, says):
    with pytest.raises(CannotUse, match=says):
        fault_of(text, MEANT)


def test_it_is_played():
    fault = fault_of("numbering b +1", MEANT)
    plain, wrong = (
        play_pretend(MEANT, found, trouble=Trouble(), chance=lambda: 1.0) for found in ([], [fault])
    )
    assert len(plain.entries) == len(wrong.entries)
    assert plain != wrong
