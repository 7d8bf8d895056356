"""A proof as rows of text for the terminal."""

import textwrap
from collections.abc import Iterator, Mapping, Sequence
from itertools import islice

from thruline.app.load import Opened
from thruline.cli.show import styled
from thruline.mend.named import named
from thruline.mend.weigh import Weighed
from thruline.papers.proof_words import summary, undescribed_words
from thruline.proof.engine import Proof, Verdict
from thruline.proof.finding import Finding, Severity, Untold

WIDTH = 92
INDENT = "      "

MARKS: Mapping[Severity, str] = {
    Severity.FAULT: "FAULT",
    Severity.RISK: "RISK",
    Severity.ADVICE: "ADVICE",
}


def proof_rows(
    opened: Opened, proof: Proof, *, took_ms: int | None = None, weighed: Sequence[Weighed] = ()
) -> Iterator[str]:
    """The whole proof: findings with evidence and mends, what cannot be told, and the sum."""
    names = iter(zip(weighed, named([one.mend for one in weighed]), strict=True))
    for finding in proof.findings:
        offered = list(islice(names, len(finding.mends)))
        yield from finding_rows(opened, finding, offered=offered)
        yield ""
    if proof.untold:
        yield styled("CANNOT BE TOLD", "strong") + " (a fact is missing; never counted as a pass)"
        for one in proof.untold:
            yield from _untold_rows(one)
        yield ""
    for finding, reason in proof.accepted:
        yield styled(f"accepted: {finding.says} (because: {reason})", "quiet")
    if proof.accepted:
        yield ""
    silent = undescribed_words(proof)
    if silent:
        yield silent
    yield f"{verdict_mark(proof)}  {opened.rig.name}: {summary(proof, took_ms=took_ms)}"


def verdict_mark(proof: Proof) -> str:
    """The verdict as the last row begins; in the colour of what is right only where all is told."""
    style = "good" if proof.verdict in (Verdict.PROVED, Verdict.NO_FAULTS) else "strong"
    return styled(proof.verdict.value.upper(), style)


def finding_rows(
    opened: Opened,
    finding: Finding,
    *,
    offered: Sequence[tuple[Weighed, str]] = (),
) -> Iterator[str]:
    """One finding: what, where, why, and what would mend it; `offered` are its mends, tried."""
    mark = styled(MARKS[finding.severity].ljust(6), finding.severity.value)
    yield from _wrapped(f"{mark}  {finding.says}", hang="        ", extra=len(mark) - 6)
    spot = opened.document.spot_of(finding.where[0])
    yield styled(f"{INDENT}  {spot}", "quiet")
    yield styled(f"{INDENT}  {finding.id}", "quiet")
    for evidence in finding.evidence:
        width = max((len(label) for label, _ in evidence.rows), default=0)
        for label, value in evidence.rows:
            yield from _wrapped(
                f"{INDENT}  {label.ljust(width)}  {value}", hang=" " * (len(INDENT) + width + 4)
            )
    if offered:
        for weighed, name in offered:
            yield from _mend_rows(weighed.mend.says, weighed)
            yield styled(f"{INDENT}    --do {name}", "quiet")
    else:
        for mend in finding.mends:
            yield from _mend_rows(mend.says, None)


def _mend_rows(says: str, weighed: Weighed | None) -> Iterator[str]:
    yield from _wrapped(
        f"{INDENT}  {styled('mend:', 'strong')} {says}{effect_words(weighed)}",
        hang=INDENT + "    ",
        extra=len(styled("mend:", "strong")) - len("mend:"),
    )


def effect_words(weighed: Weighed | None) -> str:
    """What a weighed mend does beyond its own finding."""
    if weighed is None:
        return ""
    if weighed.effect is None:
        return f" (cannot be made: {weighed.trouble})"
    also = len(weighed.effect.gone) - 1
    words = []
    if not weighed.works:
        words.append("does not remove this")
    elif also > 0:
        words.append(f"also removes {also} other{'s' if also > 1 else ''}")
    if weighed.effect.new:
        words.append("would cause: " + "; ".join(one.says for one in weighed.effect.new[:2]))
    if weighed.is_safe:
        words.append("safe")
    return f" ({', '.join(words)})" if words else ""


def _untold_rows(one: Untold) -> Iterator[str]:
    yield from _wrapped(f"  {one.says}", hang="    ")
    yield styled(f"    missing: {one.lacks}  [{one.rule}]", "quiet")


def _wrapped(text: str, *, hang: str, extra: int = 0) -> list[str]:
    return textwrap.wrap(
        text, WIDTH + extra, subsequent_indent=hang, break_long_words=False, break_on_hyphens=False
    )
