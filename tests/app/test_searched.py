from dataclasses import replace

import pytest

from tests.find.boards import field, make_board
from thruline.app.locate import Did, Search, Step, Verdict, field_for, stand
from thruline.app.searched import experience_for, keep_search, kept_search
from thruline.proof.case import Case

FIELD = field()


class Memory:
    """Searches in a list, as the store keeps them."""

    def __init__(self):
        self.kept = []

    def keep(self, kept, *, instead_of=0):
        number = instead_of or len(self.kept) + 1
        self.kept = [one for one in self.kept if one.number != number]
        self.kept.insert(0, replace(kept, number=number))
        return number

    def listed(self):
        return tuple(self.kept)


def mended():
    """The power of a unit is found to be off, and given."""
    suspect = next(one for one in FIELD.suspects if one.id == "no-power@box-2")
    steps = (
        Step(Did.ANSWERED, "look box-2 1", "nothing"),
        Step(Did.ANSWERED, "power box-2", "dark"),
        Step(Did.MENDED, suspect.mend_key),
    )
    standing = stand(FIELD, Search(steps=steps))
    while standing.check is not None:
        good = Step(Did.ANSWERED, standing.check.id, standing.check.good)
        standing = stand(FIELD, standing.search.after(good))
    return standing


def test_what_was_mended_is_kept_with_how_sure_it_was():
    kept = kept_search("/one", mended())
    assert kept.verdict is Verdict.WORKS
    assert set(kept.culprits) == {"no-power@box-2"}
    assert 0.5 < kept.culprits["no-power@box-2"] <= 1
    assert sum(kept.expected.values()) == pytest.approx(1, abs=1e-3)
    assert any(row.startswith("3. mended: ") for row in kept.told)
    assert kept.seconds > 0


def test_a_search_that_goes_on_takes_the_place_of_the_kept_one():
    memory, whole = Memory(), mended()
    keep_search(memory, "/one", stand(FIELD, Search(steps=whole.search.steps[:2])))
    keep_search(memory, "/one", whole)
    keep_search(memory, "/two", whole)
    assert [(one.number, one.rig) for one in memory.listed()] == [(2, "/two"), (1, "/one")]


def test_nothing_answered_is_not_kept():
    memory = Memory()
    keep_search(memory, "/one", stand(FIELD, Search()))
    assert memory.listed() == ()


def test_what_was_found_is_likelier_next_time():
    memory = Memory()
    keep_search(memory, "/one", mended())
    case = Case(make_board())
    same, other = (
        field_for(case, experience=experience_for(memory, rig)) for rig in ("/one", "/two")
    )
    place = next(n for n, one in enumerate(FIELD.suspects, 2) if one.id == "no-power@box-2")
    assert same.prior[place] > other.prior[place] > FIELD.prior[place]
