"""Rules are found by their place."""

import pytest

from thruline.base.errors import CannotUse
from thruline.proof.rulebook import FAMILIES, rule_called, rulebook

FEWEST = 45


def test_there_are_rules_of_every_family() -> None:
    families = [rule.id.split(".")[0] for rule in rulebook()]
    assert list(dict.fromkeys(families)) == list(FAMILIES)
    assert len(families) >= FEWEST
    assert min(families.count(family) for family in FAMILIES) >= 5


def test_every_rule_has_exactly_one_look() -> None:
    for rule in rulebook():
        looks = (
            rule.look_board,
            rule.look_preset,
            rule.look_memory,
            rule.look_whole,
            rule.look_findings,
        )
        assert sum(look is not None for look in looks) == 1, rule.id


def test_a_rule_is_found_by_its_id() -> None:
    assert rule_called("time.two-clocks").title == "Two clocks"


def test_a_slip_names_the_nearest_rule() -> None:
    with pytest.raises(CannotUse, match=r'did you mean "time.two-clocks"'):
        rule_called("time.two-clock")


def test_nonsense_points_at_the_list() -> None:
    with pytest.raises(CannotUse, match="thruline rules"):
        rule_called("zzz")
