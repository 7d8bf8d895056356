import pytest

from tests.app.test_trace import BOARD, STORED
from tests.opening import open_text
from thruline.app.mend import state_of
from thruline.app.mending import mending
from thruline.app.report import file_name, report_page, telling_presets
from thruline.base.errors import CannotUse
from thruline.papers.proof_words import counts_in_words


@pytest.fixture(scope="module")
def state():
    return state_of(open_text(STORED))


def test_every_finding_and_every_mend_with_its_name(state):
    page = report_page(state)
    count = sum(len(finding.mends) for finding in state.proof.findings)
    assert page.count("<article") == len(state.proof.findings) + len(state.proof.untold)
    assert page.count("<code>--do ") == count


def test_what_is_not_described_stands_in_the_head(state):
    head = report_page(state).partition("</header>")[0]
    assert "Power is not described, so nothing is said about it." in head


def test_charts_of_the_presets_that_findings_are_about(state):
    assert telling_presets(state)[0] == 1
    assert 'aria-label="Timing chart of Preset 1 &#34;Intro&#34;"' in report_page(state)


def test_charts_of_chosen_presets(state):
    page = report_page(state, presets=[2])
    assert "Preset 2" in page
    assert page.count("<figure") == 1


def test_a_preset_that_is_not_there(state):
    with pytest.raises(CannotUse, match="no preset 9"):
        report_page(state, presets=[9])


def test_a_rig_without_presets_has_no_charts():
    bare = state_of(open_text(BOARD[: BOARD.index("[[preset]]")]))
    assert telling_presets(bare) == ()
    assert "<figure" not in report_page(bare)


def test_before_and_after(state):
    steps = list(mending(state))
    page = report_page(steps[-1].after, found=state, steps=steps)
    assert page.count("<li><h3>") == len(steps)
    assert f"As found: {counts_in_words(state.proof)}." in page


def test_the_page_names_no_folder():
    assert file_name("a/b/mine.rig.toml") == file_name("c:\\b\\mine.rig.toml") == "mine.rig.toml"
    assert file_name("mine.rig.toml") == "mine.rig.toml"
