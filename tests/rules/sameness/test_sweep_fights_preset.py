from tests.rules.looking import found, mended
from thruline.proof.example_sweeps import swept
from thruline.proof.rules.sameness.sweep_fights_preset import RULE


def test_the_mend_starts_the_preset_at_the_heel() -> None:
    example = swept(70, heel=20, toe=100)
    (finding,) = found(RULE, example)
    (mend,) = finding.mends
    assert mend.says == "Set Mix to 20, where the heel is, in 1 preset"
    after = mended(example, mend)
    assert not any(one.rule == RULE.id for one in after.proof.findings)
