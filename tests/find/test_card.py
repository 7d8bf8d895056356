from tests.find.boards import field
from thruline.find.card import card_for

CARD = card_for(field())


def test_entries_are_numbered_and_lead_only_onward():
    assert [one.number for one in CARD] == list(range(1, len(CARD) + 1))
    for one in CARD:
        for branch in one.branches:
            assert (branch.goes_to is None) == bool(branch.do)
            assert branch.goes_to is None or one.number < branch.goes_to <= len(CARD)


def test_every_entry_is_reached_once():
    reached = [branch.goes_to for one in CARD for branch in one.branches if branch.goes_to]
    assert sorted(reached) == list(range(2, len(CARD) + 1))


def test_it_is_small_and_needs_no_computer():
    assert len(CARD) <= 40
    assert not any("computer" in one.asks for one in CARD)


def test_a_branch_at_the_end_says_what_to_do():
    done = {words for one in CARD for branch in one.branches for words in branch.do}
    assert any(words.startswith("in the controller") for words in done)
