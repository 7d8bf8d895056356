"""`thruline rules`."""

import pytest

from tests.cli.running import ran
from thruline.proof.rulebook import rulebook


def test_all_rules_in_a_list(capsys: pytest.CaptureFixture[str]) -> None:
    said = ran(capsys, "rules")
    assert said.code == 0
    assert f"{len(rulebook())} rules" in said.out
    assert all(rule.id in said.out for rule in rulebook())


def test_one_rule_explained(capsys: pytest.CaptureFixture[str]) -> None:
    said = ran(capsys, "rules", "time.two-clocks")
    assert said.out.startswith("Two clocks")
    assert "This fails:" in said.out
    assert "This passes:" in said.out


def test_a_slip_names_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    said = ran(capsys, "rules", "time.two-clock")
    assert said.code == 2
    assert 'did you mean "time.two-clocks"?' in said.err


def test_json(capsys: pytest.CaptureFixture[str]) -> None:
    found = ran(capsys, "rules", "--json").json
    assert [one["id"] for one in found["rules"]] == [rule.id for rule in rulebook()]


def test_a_word_finds_the_rules_that_have_it(capsys):
    said = ran(capsys, "rules", "polarity")
    assert "power.wrong-polarity" in said.out
    assert "this fails" in ran(capsys, "rules", "power.wrong-polarity").out.lower()
    assert ran(capsys, "rules", "zzzz").code == 2
