"""Every rule held against one case."""

from dataclasses import replace

import pytest

from tests.proof.boards import case_of, proof_of
from thruline.base.address import at
from thruline.proof.engine import Verdict, look, prove
from thruline.proof.evidence import facts
from thruline.proof.example_boards import (
    DELAY,
    TO_DELAY,
    a_power_lead,
    a_preset,
    a_sweep,
    a_unit,
    board,
)
from thruline.proof.finding import Finding, Severity, Untold
from thruline.proof.rulebook import rule_called, rulebook

LONG = a_preset(1, "The long farewell at the orchard gate", 'delay = { program = "99Z" }')
MIXED = board(DELAY, TO_DELAY, LONG)


def test_faults_come_first() -> None:
    severities = [finding.severity for finding in proof_of(MIXED).findings]
    assert severities == sorted(severities, key=list(Severity).index)
    assert Severity.FAULT in severities
    assert Severity.RISK in severities


def test_what_harms_a_unit_comes_before_every_other_fault() -> None:
    supply = a_unit("supply", "blenheim-supply", 'settings = { volts-1 = "18 V" }')
    lead = a_power_lead("supply.outlet-1", "delay.power-in")
    findings = proof_of(board(DELAY, TO_DELAY, LONG, supply, lead)).findings
    assert findings[0].rule == "power.wrong-voltage"
    assert sum(finding.severity is Severity.FAULT for finding in findings) > 1


def test_counts_and_cleanness() -> None:
    proof = proof_of(MIXED)
    assert proof.count(Severity.FAULT) == 1
    assert not proof.is_clean
    assert proof_of(board(DELAY, TO_DELAY)).is_clean


def test_a_risk_alone_is_clean() -> None:
    proof = proof_of(board(a_preset(1, "The long farewell at the orchard gate")))
    assert proof.findings
    assert proof.is_clean


def test_the_extent_is_exhaustive() -> None:
    presets = [a_preset(n, f"Cue {n}", 'delay = { program = "2A", mix = 0 }') for n in (1, 2, 3)]
    move = 'unit = "delay", control = "mix", heel = 0, toe = 100'
    extent = proof_of(board(DELAY, TO_DELAY, *presets, a_sweep("Swell", move))).proved
    assert (extent.presets, extent.changes, extent.positions) == (3, 6, 128)
    controls = extent.cells // (extent.changes * extent.positions)
    assert controls == 7


def test_without_pedals_there_is_one_place() -> None:
    assert proof_of(MIXED).proved.positions == 1


def test_steps_are_told_to_the_end() -> None:
    told: list[tuple[int, int]] = []
    prove(case_of(MIXED), rulebook(), step=lambda done, of: told.append((done, of)))
    assert told[-1] == (len(rulebook()), len(rulebook()))
    assert [done for done, _ in told] == list(range(1, len(rulebook()) + 1))


def test_results_are_kept_with_the_case() -> None:
    case = case_of(MIXED)
    rule = rule_called("understanding.no-such-program")
    assert list(look(case, rule)) == list(look(case, rule))
    assert rule.id in case.results_for(case.rig.presets[0])


@pytest.mark.parametrize(
    ("severities", "untold", "verdict"),
    [
        ((), 0, Verdict.PROVED),
        ((), 1, Verdict.PROVED_SO_FAR),
        ((Severity.RISK,), 0, Verdict.NO_FAULTS),
        ((Severity.ADVICE,), 2, Verdict.NO_FAULTS_SO_FAR),
        ((Severity.FAULT,), 1, Verdict.NOT_CLEAN),
        ((Severity.FAULT, Severity.RISK), 0, Verdict.NOT_CLEAN),
    ],
)
def test_only_what_can_be_told_is_proved(
    severities: tuple[Severity, ...], untold: int, verdict: Verdict
) -> None:
    where = (at("unit", "delay"),)
    findings = [
        Finding(rule="a.b", severity=one, says="x", where=where, evidence=(facts(("a", "b")),))
        for one in severities
    ]
    lacking = [Untold(rule="a.b", says="x", where=where, lacks="c")] * untold
    empty = prove(case_of(board(DELAY)), ())
    proof = replace(empty, findings=tuple(findings), untold=tuple(lacking))
    assert proof.verdict is verdict
