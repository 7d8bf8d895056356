"""Findings that the document accepts, each with a reason; and acceptances that no longer apply."""

from collections.abc import Iterable

from thruline.proof.finding import Finding
from thruline.rig.whole import Acceptance, Rig

STALE = "document.acceptance-stale"
"""The rule that reports an acceptance which no longer applies; it cannot itself be accepted."""


def settled(
    rig: Rig, findings: Iterable[Finding]
) -> tuple[tuple[Finding, ...], tuple[tuple[Finding, str], ...]]:
    """Findings that stand, and those that are accepted with the reason why."""
    reasons = {one.finding: one.reason for one in rig.acceptances}
    standing, accepted = [], []
    for finding in findings:
        reason = reasons.get(finding.id)
        if reason is None or finding.rule == STALE:
            standing.append(finding)
        else:
            accepted.append((finding, reason))
    return tuple(standing), tuple(accepted)


def stale(rig: Rig, findings: Iterable[Finding]) -> tuple[Acceptance, ...]:
    """Acceptances that match none of the findings."""
    ids = {finding.id for finding in findings}
    return tuple(one for one in rig.acceptances if one.finding not in ids)
