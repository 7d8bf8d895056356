import pytest

from tests.app.keeping import BOARD, keeping
from thruline.app import desk as desks
from thruline.app.desk_answer import desk_json, mend_edits
from thruline.base.errors import CannotUse
from thruline.papers.proof_words import summary, undescribed_words

WRONG = BOARD.replace("channel = 3", "channel = 3\nsent-on = 5")


@pytest.fixture
def kept():
    return keeping(WRONG)


def test_a_finding_carries_its_mends_and_what_they_edit(kept):
    told = desk_json(desks.open_desk(kept))
    mended = next(one for one in told["findings"] if one["mends"])
    assert mended["mends"][0]["edits"][0].startswith(("set ", "remove "))
    assert told["faults"] > 0
    assert told["can_undo"] is False
    assert told["effect"] is None


def test_a_mend_is_found_by_its_words_and_its_effect_is_told(kept):
    desk = desks.open_desk(kept)
    finding = next(one for one in desk.state.proof.findings if one.mends)
    edits = mend_edits(desk, finding.id, says=finding.mends[0].says)
    after = desks.edited(desk, edits, kept, says="Mended")
    assert finding.says in desk_json(after, desk)["effect"]["gone"]
    assert desk_json(desk, desk)["effect"] is None
    with pytest.raises(CannotUse, match="no longer needed"):
        mend_edits(after, finding.id, says=finding.mends[0].says)


@pytest.mark.parametrize("board", [BOARD, WRONG])
def test_a_page_says_what_the_command_says(board):
    desk = desks.open_desk(keeping(board))
    told, proof = desk_json(desk), desk.state.proof
    assert f"{told['says']}; {told['proved']}" == summary(proof)
    assert told["silent"] == undescribed_words(proof)
    assert told["verdict"] == proof.verdict
