from tests.find.boards import field, played, suspect, until_due
from thruline.find import story
from thruline.find.kinds import Kind
from thruline.find.search import Did, Search, Step
from thruline.find.standing import Verdict, stand

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
    told = story.doubt(stand(field(), Search(steps=steps)))
    assert told is not None
    assert "number 1: Press preset 1" in told
    assert story.doubt(stand(field(), Search())) is None


def test_measures():
    assert story.percent(0.999) == "over 99 %"
    assert story.percent(0.001) == "under 1 %"
    assert story.percent(0.42) == "42 %"
    assert story.minutes(3) == "5 seconds"
    assert story.minutes(100) == "2 minutes"
    assert story.minutes(600) == "10 minutes"
