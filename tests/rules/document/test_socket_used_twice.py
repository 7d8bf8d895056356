from tests.rules.looking import found
from thruline.proof.rules.document.socket_used_twice import RULE


def test_either_cable_can_be_taken_out() -> None:
    (finding,) = found(RULE, RULE.failing)
    assert [mend.says for mend in finding.mends] == [
        "Take out the cable feet.midi-out-2>delay.midi-in",
        "Take out the cable feet.midi-out-1>delay.midi-in",
    ]
