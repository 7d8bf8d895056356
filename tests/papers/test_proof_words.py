from dataclasses import replace

import pytest

from thruline.base.address import at
from thruline.papers.proof_words import (
    counts_in_words,
    extent_in_words,
    summary,
    undescribed_words,
    unproved_words,
)
from thruline.proof.engine import Proof, Proved
from thruline.proof.evidence import facts
from thruline.proof.finding import Finding, Severity, Untold


def finding(severity):
    return Finding(
        rule="time.late",
        severity=severity,
        says="It is late",
        where=(at("preset", 1),),
        evidence=(facts(("a", "b")),),
    )


def proof(*severities, accepted=0, untold=0, presets=24, positions=1):
    lacking = Untold(rule="time.late", says="?", where=(at("preset", 1),), lacks="settle")
    return Proof(
        findings=tuple(finding(one) for one in severities),
        accepted=((finding(Severity.RISK), "because"),) * accepted,
        untold=(lacking,) * untold,
        proved=Proved(
            rules=1,
            units=2,
            presets=presets,
            changes=presets * (presets - 1),
            positions=positions,
            cells=0,
        ),
    )


@pytest.mark.parametrize(
    ("found", "says"),
    [
        (proof(), ""),
        (proof(accepted=1), ""),
        (proof(Severity.RISK), "Not proved: 1 risk stands."),
        (
            proof(Severity.FAULT, Severity.RISK, Severity.RISK),
            "Not proved: 1 fault, 2 risks stand.",
        ),
        (
            proof(Severity.ADVICE, Severity.ADVICE, untold=2),
            "Not proved: 2 advice stand; 2 cannot be told.",
        ),
        (proof(untold=1), "Not proved: 1 cannot be told."),
    ],
)
def test_what_stands_against_a_paper(found, says):
    assert unproved_words(found) == says


def test_what_is_not_described():
    whole = proof()
    assert undescribed_words(whole) == ""
    says = undescribed_words(replace(whole, undescribed=("power",)))
    assert says == "power is not described, so nothing is said about it"
    says = undescribed_words(replace(whole, undescribed=("power", "sound")))
    assert says == "power and sound are not described, so nothing is said about them"


@pytest.mark.parametrize(
    ("found", "says"),
    [
        (proof(), "no faults, no risks"),
        (proof(Severity.FAULT), "1 fault, no risks"),
        (proof(Severity.FAULT, Severity.RISK, Severity.RISK), "1 fault, 2 risks"),
        (proof(Severity.ADVICE, untold=2), "no faults, no risks, 1 advice, 2 cannot be told"),
        (proof(accepted=1), "no faults, no risks, 1 accepted"),
    ],
)
def test_counts(found, says):
    assert counts_in_words(found) == says


def test_extent():
    assert extent_in_words(proof()) == "24 presets, 552 changes"
    assert extent_in_words(proof(presets=1)) == "1 preset, 0 changes"
    assert extent_in_words(proof(presets=128)) == "128 presets, 16,256 changes"
    assert extent_in_words(proof(positions=128)).endswith("every pedal at 128 places")


def test_the_sum_in_one_row():
    assert summary(proof(), took_ms=7) == (
        "no faults, no risks; 24 presets, 552 changes proved in 7 ms"
    )
