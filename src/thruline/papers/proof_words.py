"""A proof in words: how many findings stand, and how much was proved."""

from thruline.proof.engine import Proof, Verdict
from thruline.proof.finding import Severity


def summary(proof: Proof, *, took_ms: int | None = None) -> str:
    """One row: what stands, and how much was proved."""
    took = f" in {took_ms} ms" if took_ms is not None else ""
    return f"{counts_in_words(proof)}; {extent_in_words(proof)} {looked(proof)}{took}"


def undescribed_words(proof: Proof) -> str:
    """What the document is silent about, and so the proof; empty where it describes everything."""
    parts = proof.undescribed
    if not parts:
        return ""
    are, them = ("is", "it") if len(parts) == 1 else ("are", "them")
    return f"{' and '.join(parts)} {are} not described, so nothing is said about {them}"


def unproved_words(proof: Proof) -> str:
    """What stands against a paper of the rig: `Not proved: 1 fault, 2 risks stand.`; or nothing."""
    if proof.verdict is Verdict.PROVED:
        return ""
    counts = {severity: proof.count(severity) for severity in Severity}
    parts = [_of(counts[one], one.value) for one in (Severity.FAULT, Severity.RISK) if counts[one]]
    if counts[Severity.ADVICE]:
        parts.append(f"{counts[Severity.ADVICE]} advice")
    stand = "stands" if len(proof.findings) == 1 else "stand"
    says = [f"{', '.join(parts)} {stand}"] if parts else []
    says += [f"{len(proof.untold)} cannot be told"] if proof.untold else []
    return f"Not proved: {'; '.join(says)}."


def looked(proof: Proof) -> str:
    """What was done with all presets and changes; nothing is proved where a fact is missing."""
    return "looked at" if proof.untold else "proved"


def counts_in_words(proof: Proof) -> str:
    """How many findings stand: `1 fault, 2 risks`."""
    counts = [
        _count(proof.count(Severity.FAULT), "fault"),
        _count(proof.count(Severity.RISK), "risk"),
    ]
    if proof.count(Severity.ADVICE):
        counts.append(f"{proof.count(Severity.ADVICE)} advice")
    if proof.untold:
        counts.append(f"{len(proof.untold)} cannot be told")
    if proof.accepted:
        counts.append(f"{len(proof.accepted)} accepted")
    return ", ".join(counts)


def extent_in_words(proof: Proof) -> str:
    """How much was looked at: `24 presets, 552 changes`."""
    extent = proof.proved
    looked = f"{_of(extent.presets, 'preset')}, {_of(extent.changes, 'change')}"
    return f"{looked}, every pedal at {extent.positions} places" if extent.positions > 1 else looked


def _count(number: int, word: str) -> str:
    return f"no {word}s" if number == 0 else _of(number, word)


def _of(number: int, word: str) -> str:
    return f"{number:,} {word}{'' if number == 1 else 's'}"
