from tests.rules.looking import found
from thruline.proof.example_boards import DELAY, TO_DELAY, board
from thruline.proof.rules.document.socket_used_twice import RULE


def test_either_cable_can_be_taken_out() -> None:
    (finding,) = found(RULE, RULE.failing)
    assert [mend.says for mend in finding.mends] == [
        "Take out the cable feet.midi-out-2>delay.midi-in",
        "Take out the cable feet.midi-out-1>delay.midi-in",
    ]


def test_cables_between_the_same_sockets_are_told_apart() -> None:
    says = "Take out the cable feet.midi-out-1>delay.midi-in that stands at place"
    findings = found(RULE, board(DELAY, TO_DELAY, TO_DELAY))
    assert len(findings) == 2
    for finding in findings:
        assert [(mend.says, str(mend.edits[0].address)) for mend in finding.mends] == [
            (f"{says} 2 of 2 alike", "cable[feet.midi-out-1>delay.midi-in#2]"),
            (f"{says} 1 of 2 alike", "cable[feet.midi-out-1>delay.midi-in]"),
        ]
