"""The proof of an opened rig."""

from tests.opening import open_text
from thruline.app.load import open_again
from thruline.app.prove import prove_rig
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board


def test_going_on_from_before_gives_the_same_proof_as_starting_anew() -> None:
    text = board(DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2A" }')).rig
    opened = open_text(text)
    case, _ = prove_rig(opened)
    changed = open_again(opened, opened.document.text.replace('"2A"', '"99Z"'))
    _, onward = prove_rig(changed, case)
    _, anew = prove_rig(open_text(changed.document.text))
    assert onward == anew
    assert [one.rule for one in onward.findings] == ["understanding.no-such-program"]


def test_progress_is_told() -> None:
    told: list[int] = []
    prove_rig(open_text(board(DELAY).rig), step=lambda done, _: told.append(done))
    assert told == sorted(told)
    assert told
