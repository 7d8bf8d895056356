"""Findings cannot be made without place and evidence, and their ids survive edits elsewhere."""

import pytest

from tests.proof.boards import proof_of
from thruline.base.address import at
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.finding import Finding, Severity, Untold


def finding(**changed: object) -> Finding:
    given = {
        "rule": "document.name-too-long",
        "severity": Severity.RISK,
        "says": "the name is long",
        "where": (at("preset", 1),),
        "evidence": (facts(("written", "x")),),
    }
    return Finding(**{**given, **changed})  # type: ignore[arg-type]


def test_a_finding_without_evidence_is_refused() -> None:
    with pytest.raises(ValueError, match="no place or no evidence"):
        finding(evidence=())


def test_a_finding_without_place_is_refused() -> None:
    with pytest.raises(ValueError, match="no place or no evidence"):
        finding(where=())


def test_the_id_names_rule_and_places() -> None:
    two = finding(where=(at("preset", 1), at("unit", "delay")))
    assert two.id == "document.name-too-long at preset[1] and unit[delay]"


def test_what_cannot_be_told_has_an_id_too() -> None:
    one = Untold(rule="time.x", says="cannot be told", where=(at("unit", "a"),), lacks="settle")
    assert one.id == "time.x at unit[a]"


def test_ids_survive_edits_elsewhere() -> None:
    long = a_preset(7, "The long farewell at the orchard gate")
    alone = proof_of(board(DELAY, TO_DELAY, long))
    among = proof_of(board("# a comment\n", a_preset(3, "Overture"), DELAY, TO_DELAY, long))
    assert [one.id for one in alone.findings] == [one.id for one in among.findings]
