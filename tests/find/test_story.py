from dataclasses import replace

import pytest

from tests.find.boards import field, played, suspect, until_due
from thruline.app.locate import with_symptoms
from thruline.find import story
from thruline.find.kinds import Kind
from thruline.find.search import Did, Search, Step, Verdict
from thruline.find.standing import stand

GLANCED = Search(steps=(Step(Did.ANSWERED, "glance 1", "box-3"),))


def test_an_answer_says_what_it_rules_out_and_why():
    told = story.ruled_out(field(), GLANCED.after(Step(Did.ANSWERED, "lamp box-3 1", "blinks")))
    assert any("then it would not be “it blinks”" in one for one in told)
    assert story.ruled_out(field(), Search()) == ()


def test_a_mend_says_what_speaks_for_it():
    steps = (
        Step(Did.ANSWERED, "look box-3 1", "nothing"),
        Step(Did.ANSWERED, "channel box-3", "other"),
        Step(Did.ANSWERED, "lamp box-3 1", "blinks"),
    )
    standing = until_due(suspect(Kind.CHANNEL_ABOVE, "box-3"), Search(steps=steps))
    assert standing.verdict is Verdict.MEND
    assert standing.mend is not None
    assert len(story.because(standing, standing.mend)) >= 2
    assert "sure: " in story.conclusion(standing)


def test_the_record_tells_every_step():
    search = played(suspect(Kind.NO_POWER, "box-2"))
    rows = list(story.record(field(), search))
    assert len(rows) == len(search.steps) + 1
    assert any("mended: give" in row for row in rows)
    left = Search(steps=(Step(Did.CANNOT, "glance 1"), Step(Did.NOT_SURE, "look box-1 1")))
    told = list(story.record(field(), left))
    assert told[0].endswith("cannot be done here")
    assert told[1].endswith("not sure")


def test_every_ending_has_its_words():
    works = stand(field(), played(suspect(Kind.NO_POWER, "box-2")))
    assert story.conclusion(works).startswith("it works")
    assert "expected" in story.conclusion(stand(field(), Search()))


def test_a_contradiction_asks_for_the_answer_again():
    steps = (
        Step(Did.ANSWERED, "look box-2 1", "right"),
        Step(Did.ANSWERED, "channel box-2", "other"),
        Step(Did.ANSWERED, "entry box-2", "good"),
    )
    found = [stand(field(), Search(steps=steps[:count])) for count in range(4)]
    told = [story.doubt(one) for one in found]
    first = next(place for place, one in enumerate(told) if one is not None)
    assert told[0] is None
    assert "number 1: Press preset 1" in told[first]
    more = Search(steps=(*steps, Step(Did.NOT_SURE, "lamp box-2 1")))
    still = stand(field(), more)
    assert story.doubt(still) == "answer 1 still contradicts the others; try it again"
    assert story.doubt(still, in_full=True) == told[first]


def test_a_symptom_tells_how_it_was_understood_until_that_is_taken_back():
    search = with_symptoms(field(), Search(), ["box-2 does  nothing", "box-3 is dark"])
    told = story.understood(field(), search)
    assert told[0].startswith("“box-2 does nothing” is understood as: 1. Press preset 1")
    assert told[0].endswith("– nothing happens")
    assert "2. Look at the power lamp" in told[1]
    assert story.understood(field(), search.without(0)) == (told[1].replace("2. L", "1. L"),)
    assert story.understood(field(), Search()) == ()


@pytest.mark.parametrize(
    ("steps", "says"),
    [
        ([("answered", "look box-2 1", "nothing")], "to be surer: about one such answer in 14"),
        (
            [("answered", "look box-2 1", "nothing"), ("mended", "set-channel@box-2", "")],
            "now that something was mended: answer 1 was “nothing happens”",
        ),
        (
            [
                ("answered", "look box-2 1", "right"),
                ("answered", "channel box-2", "other"),
                ("answered", "entry box-2", "good"),
            ],
            "since the answers contradict each other: answer 1 was “as it should be”",
        ),
        (
            [
                ("answered", "look box-2 1", "right"),
                ("answered", "wiggle feet.midi-out>box-1.midi-in", "comes-and-goes"),
                ("answered", "tester feet.midi-out>box-1.midi-in", "unsteady"),
            ],
            "since what is wrong may come and go: answer 1 was",
        ),
    ],
)
def test_the_same_question_says_why_it_comes_again(steps, says):
    search = Search(steps=tuple(Step(Did(did), on, answer) for did, on, answer in steps))
    standing = stand(field(), search)
    asked = replace(standing, check=field().check("look box-2 1"))
    assert says in story.asked_again(asked)
    assert story.asked_again(replace(standing, check=field().check("power box-3"))) is None
    assert story.asked_again(replace(standing, check=None)) is None


def test_measures():
    assert story.percent(0.999) == "over 99 %"
    assert story.percent(0.001) == "under 1 %"
    assert story.percent(0.42) == "42 %"
    assert story.minutes(3) == "5 seconds"
    assert story.minutes(100) == "2 minutes"
    assert story.minutes(600) == "10 minutes"
