"""The proof on paper."""

from tests.opening import open_text
from thruline.app.prove import prove_rig
from thruline.outside.samples import AS_FOUND, ORCHARD_STREET, sample_text
from thruline.papers.proof_paper import SAID, proof_paper
from thruline.proof.engine import Verdict
from thruline.proof.example_boards import DELAY, TO_DELAY, board


def paper_of(text):
    proof = prove_rig(open_text(text))[1]
    return proof, proof_paper("Pit", proof, made="1 May, by thruline 1")


def test_a_clean_rig_is_said_to_be_proved_and_by_what():
    _, paper = paper_of(sample_text(ORCHARD_STREET))
    assert paper.about[0] == SAID[Verdict.PROVED]
    assert [one.title for one in paper.sections] == ["What was done"]
    assert ("made", "1 May, by thruline 1") in paper.sections[0].table.rows


def test_what_is_not_described_is_said():
    _, paper = paper_of(board(DELAY, TO_DELAY).rig)
    silent = dict(paper.sections[0].table.rows)["left out"]
    assert silent == "power and sound are not described, so nothing is said about them"


def test_all_that_stands_was_accepted_or_is_open_is_listed():
    proof, paper = paper_of(sample_text(AS_FOUND))
    sections = {one.title: one for one in paper.sections}
    assert len(sections["What stands"].table.rows) == len(proof.findings)
    for title, those in (
        ("What was accepted, and why", proof.accepted),
        ("What cannot be told", proof.untold),
    ):
        assert (title in sections) == bool(those)
        if those:
            assert len(sections[title].table.rows) == len(those)


def test_every_verdict_has_its_sentence():
    assert set(SAID) == set(Verdict)
