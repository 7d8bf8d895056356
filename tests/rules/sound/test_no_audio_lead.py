"""Leads of the audio path."""

from tests.rules.looking import found, mended, state
from thruline.proof.example_boards import DELAY, REVERB, a_cable, a_unit, an_audio_path, board
from thruline.proof.rule import Example
from thruline.proof.rules.sound.no_audio_lead import RULE

PATH = an_audio_path("guitar", "drive", "delay", "reverb", "amplifier")
UNITS = (DELAY, REVERB, a_unit("drive", "russet-drive"), PATH)


def _lead(start: str, stop: str) -> str:
    return a_cable(start, stop, ends="ts-6.35/ts-6.35")


def _rig(*leads: str) -> Example:
    return board(*UNITS, *leads)


def test_the_mend_puts_the_lead_in() -> None:
    (one,) = found(RULE, RULE.failing)
    assert "delay" in one.says
    assert "reverb" in one.says
    after = mended(RULE.failing, one.mends[0])
    assert not [each for each in after.proof.findings if each.rule == RULE.id]


def test_where_no_audio_lead_is_listed_nothing_is_said() -> None:
    assert found(RULE, _rig()) == []


def test_a_lead_past_a_unit() -> None:
    (first, second) = found(RULE, _rig(_lead("drive.output", "reverb.input")))
    assert dict(first.evidence[0].rows)["drive OUT"] == "to reverb.input"
    assert "delay" in second.says


def test_a_lead_plugged_backwards_is_told_once() -> None:
    rig = _rig(_lead("drive.output", "delay.output"), _lead("delay.output", "reverb.input"))
    rules = [one.rule for one in state(rig).proof.findings]
    assert "document.wrong-way-round" in rules
    assert RULE.id not in rules


def test_a_lead_that_could_not_be_read_is_told_once() -> None:
    rig = _rig(_lead("drive.output", "delay.input"), _lead("delay.output", "reverb.inputt"))
    assert [one.rule for one in state(rig).proof.findings if "sound" in one.rule] == []
