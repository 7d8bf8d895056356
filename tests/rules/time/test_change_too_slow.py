from dataclasses import replace

import pytest

from tests.rules.looking import found
from thruline.proof.rules.time.change_too_slow import RULE


@pytest.mark.parametrize(("wait", "mends"), [(9_000, 1), (9_999, 0)])
def test_a_rig_can_allow_ten_seconds_at_most(wait: int, mends: int) -> None:
    messages = (
        f'messages = ["wait {wait} ms", "3: control 0 = 0", "3: control 32 = 0", "3: program 4"]'
    )
    rig = RULE.failing.rig.replace('name = "Overture"', f'name = "Overture"\n{messages}')
    (finding,) = found(RULE, replace(RULE.failing, rig=rig))
    assert len(finding.mends) == mends
