"""Names that are not there, as findings."""

from tests.proof.boards import case_of
from tests.rules.looking import mended
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, a_unit, board
from thruline.proof.gaps import gap_findings, unit_findings
from thruline.proof.rulebook import rule_called
from thruline.rig.whole import Lack

RULE = rule_called("document.unknown-control")
UNKNOWN = rule_called("document.unknown-unit")
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


def test_one_name_that_is_no_unit_is_one_finding() -> None:
    wanted = [a_preset(number, f"Cue {number}", 'dealy = "2A"') for number in (1, 2, 3)]
    (found,) = unit_findings(case_of(board(DELAY, TO_DELAY, *wanted)), UNKNOWN)
    assert '"dealy" stands in 3 places' in found.says
    assert ("also at", "preset[2].dealy") in found.evidence[0].rows
    (mend,) = found.mends
    assert mend.says == 'Take "dealy" out of the document, in all 3 places'
    assert len(mend.edits) == 3


def test_twins_are_mended_by_the_name_that_is_missing_and_nothing_is_taken_out() -> None:
    twins = (DELAY, a_unit("delay", "pippin-reverb", "channel = 4"), TO_DELAY)
    wanted = [a_preset(number, f"Cue {number}", 'reverb = "31"') for number in (1, 2)]
    example = board(*twins, *wanted)
    two, missing = unit_findings(case_of(example), UNKNOWN)
    assert missing.mends == ()
    (mend,) = two.mends
    assert mend.says == 'Call the second one "reverb"'
    after = mended(example, mend)
    assert list(unit_findings(after.case, UNKNOWN)) == []


def test_twins_without_a_missing_name_get_one_of_their_own() -> None:
    example = board(DELAY, a_unit("delay", "pippin-reverb", "channel = 4"), TO_DELAY)
    (two,) = unit_findings(case_of(example), UNKNOWN)
    assert [mend.says for mend in two.mends] == ['Call the second one "delay-2"']
