"""One harness for all rules: their examples, mends and words."""

import pytest

from tests.opening import open_text, with_head
from thruline.app.load import open_again
from thruline.document.change import apply
from thruline.proof.case import Case
from thruline.proof.engine import prove
from thruline.proof.finding import Finding, Result
from thruline.proof.rule import Example, Rule
from thruline.proof.rulebook import FAMILIES, rulebook

RULES = rulebook()


def found_in(example: Example, rule: Rule) -> list[Result]:
    """What the rule alone finds in the example."""
    opened = open_text(example.rig, *example.charts)
    proof = prove(Case(opened.rig), rulebook())
    results = (*proof.findings, *proof.untold)
    return [result for result in results if result.rule == rule.id]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_failing_example_fails(rule: Rule) -> None:
    found = found_in(rule.failing, rule)
    assert any(isinstance(one, Finding) for one in found)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_passing_example_passes(rule: Rule) -> None:
    assert found_in(rule.passing, rule) == []


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_mends_of_the_failing_example_work(rule: Rule) -> None:
    opened = open_text(rule.failing.rig, *rule.failing.charts)
    for finding in prove(Case(opened.rig), rulebook()).findings:
        if finding.rule != rule.id:
            continue
        for mend in finding.mends:
            mended = open_again(opened, apply(with_head(rule.failing.rig), mend.edits))
            after = prove(Case(mended.rig), rulebook())
            assert finding.id not in {one.id for one in after.findings}, mend.says


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_words_are_for_musicians(rule: Rule) -> None:
    assert rule.id.split(".")[0] in FAMILIES
    assert rule.title[0].isupper()
    assert not rule.title.endswith(".")
    assert rule.why.endswith(".")
    for finding in found_in(rule.failing, rule):
        assert not finding.says.endswith(".")
        assert "None" not in finding.says
        assert len(finding.says) < 300


def test_ids_are_unique() -> None:
    ids = [rule.id for rule in RULES]
    assert len(set(ids)) == len(ids)
