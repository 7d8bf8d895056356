"""Names that are not there, as findings."""

from tests.proof.boards import case_of
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.gaps import gap_findings
from thruline.proof.rulebook import rule_called
from thruline.rig.whole import Lack

RULE = rule_called("document.unknown-control")
RIG = board(DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2A", mixx = 64 }'))


def test_one_finding_for_each_gap_of_the_kind() -> None:
    (found,) = gap_findings(case_of(RIG), RULE, {Lack.CONTROL})
    assert 'did you mean "mix"' in found.says
    assert str(found.where[0]) == "preset[1].delay.mixx"


def test_gaps_of_other_kinds_are_left_alone() -> None:
    assert list(gap_findings(case_of(RIG), RULE, {Lack.UNIT})) == []


def test_a_key_is_taken_out_and_a_value_is_written_anew() -> None:
    (key,) = gap_findings(case_of(RIG), RULE, {Lack.CONTROL})
    assert [mend.says for mend in key.mends] == ['Take "mixx" out of the document']
    wrong = DELAY.replace("channel = 3", 'channel = 3\nsettings = { clock = "onn" }')
    (value,) = gap_findings(case_of(board(wrong)), RULE, {Lack.SETTING_VALUE})
    assert [mend.says for mend in value.mends] == ['Write "on"']


def test_what_is_near_is_told_only_where_something_is() -> None:
    (near,) = gap_findings(case_of(RIG), RULE, {Lack.CONTROL})
    assert near.evidence[0].rows == (("the document says", "mixx"), ("nearest", "mix"))
    far = case_of(board(DELAY, TO_DELAY, a_preset(1, "Overture", "delay = { qqq = 64 }")))
    (lost,) = gap_findings(far, RULE, {Lack.CONTROL})
    assert lost.evidence[0].rows == (("the document says", "qqq"),)
