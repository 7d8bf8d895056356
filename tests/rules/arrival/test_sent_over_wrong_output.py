"""An output that the document gives, held against those that there are."""

from tests.proof.boards import case_of
from thruline.proof.engine import look
from thruline.proof.example_boards import TO_DELAY, a_unit, board
from thruline.proof.rules.arrival.sent_over_wrong_output import RULE


def found(over: str, *cables: str, controller: str = "pearmain-ten") -> list[object]:
    unit = a_unit("delay", "bramley-delay", "channel = 3", f'sent-over = "{over}"')
    return list(look(case_of(board(unit, *cables, controller=controller)), RULE))


def test_an_output_that_is_not_there_is_told_with_those_that_lead_there() -> None:
    (one,) = found("midi-out-9", TO_DELAY)
    assert "which Pearmain Ten does not have" in one.says
    assert [mend.says for mend in one.mends] == ["Send to Bramley Delay over midi-out-1"]


def test_where_nothing_leads_there_the_choice_can_only_be_left_open() -> None:
    (one,) = found("midi-out-9")
    assert [mend.says for mend in one.mends] == [
        "Leave open over which output Bramley Delay is sent to"
    ]
    assert not found("midi-out-2")
