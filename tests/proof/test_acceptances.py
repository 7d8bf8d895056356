"""Accepted findings, and acceptances that no longer apply."""

from tests.proof.boards import case_of, proof_of
from thruline.proof.acceptances import STALE, settled, stale
from thruline.proof.example_boards import a_preset, board

LONG = a_preset(1, "The long farewell at the orchard gate")
ID = "document.name-too-long at preset[1].name"
ACCEPT = f'[[accept]]\nfinding = "{ID}"\nreason = "the player knows it"\n'


def test_an_accepted_finding_stands_apart_with_its_reason() -> None:
    proof = proof_of(board(LONG, ACCEPT))
    assert proof.findings == ()
    assert [(one.id, reason) for one, reason in proof.accepted] == [(ID, "the player knows it")]


def test_without_acceptance_it_stands() -> None:
    proof = proof_of(board(LONG))
    assert [one.id for one in proof.findings] == [ID]
    assert proof.accepted == ()


def test_an_acceptance_of_nothing_is_stale() -> None:
    case = case_of(board(a_preset(1, "Farewell"), ACCEPT))
    assert [one.finding for one in stale(case.rig, ())] == [ID]


def test_a_stale_acceptance_cannot_be_accepted() -> None:
    missing = board(a_preset(1, "Farewell"), ACCEPT)
    (found,) = proof_of(missing).findings
    assert found.rule == STALE
    again = f'[[accept]]\nfinding = "{found.id.replace("[", "%5B").replace("]", "%5D")}"\n'
    accepted = board(a_preset(1, "Farewell"), ACCEPT, again + 'reason = "for now"\n')
    assert STALE in {one.rule for one in proof_of(accepted).findings}


def test_settled_keeps_the_order() -> None:
    case = case_of(board(LONG, a_preset(2, "Another very long name of a preset")))
    findings = proof_of(board(LONG, a_preset(2, "Another very long name of a preset"))).findings
    standing, accepted = settled(case.rig, findings)
    assert standing == findings
    assert accepted == ()
