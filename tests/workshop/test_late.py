import pytest

from thruline.base.errors import WorldFailed
from thruline.workshop.history import Cause, History, KeptElsewhere, Revision
from thruline.workshop.late import LateRevisions

FIRST = Revision(number=1, cause=Cause.OPENED, says="Opened")


class Notes:
    """A store that remembers what it was told, and may be out of reach."""

    def __init__(self):
        self.told, self.trouble = [], None

    def keep(self, history, revision=None, text=""):
        if self.trouble is not None:
            raise self.trouble
        self.told.append((history.now, text))

    def recall(self):
        return History(now=self.told[-1][0]) if self.told else None

    def text(self, number):
        return dict(self.told)[number]

    def listed(self):
        return (FIRST,) * len(self.told)

    def give_name(self, number, name):
        self.told.append((number, name))


@pytest.fixture
def notes():
    return Notes()


@pytest.fixture
def late(notes):
    one = LateRevisions(notes)
    one.keep(History(now=1), FIRST, "first")
    one.keep(History(now=2), FIRST, "second")
    return one


def test_nothing_is_told_before_it_is_settled_and_then_all_in_order(late, notes):
    assert notes.told == []
    late.settle()
    late.settle()
    assert notes.told == [(1, "first"), (2, "second")]


@pytest.mark.parametrize(
    ("ask", "answer"),
    [
        (lambda late: late.recall().now, 2),
        (lambda late: late.text(1), "first"),
        (lambda late: len(late.listed()), 2),
        (lambda late: late.give_name(1, "as delivered"), None),
    ],
)
def test_whoever_asks_is_told_of_all_that_was_kept(late, notes, ask, answer):
    assert ask(late) == answer
    assert notes.told[:2] == [(1, "first"), (2, "second")]


def test_what_cannot_be_told_now_waits(late, notes):
    notes.trouble = WorldFailed("the store is out of reach")
    with pytest.raises(WorldFailed):
        late.settle()
    notes.trouble = None
    late.settle()
    assert notes.told == [(1, "first"), (2, "second")]


def test_what_another_workbench_has_overtaken_is_given_up(late, notes):
    notes.trouble = KeptElsewhere("kept elsewhere")
    with pytest.raises(KeptElsewhere):
        late.settle()
    notes.trouble = None
    late.settle()
    assert notes.told == []
