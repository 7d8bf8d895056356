"""The proof on paper: what was proved, what stands, what was accepted and why, what is open."""

from collections.abc import Iterator

from thruline.papers.paper import Paper, Section, table_of
from thruline.papers.proof_words import counts_in_words, extent_in_words, looked, undescribed_words
from thruline.proof.engine import Proof, Verdict
from thruline.proof.finding import Finding

MEANS = (
    (
        "It holds for the model, which is the charts and settings as they are written. It replaces "
        "no meter and no listening."
    ),
    "All presets, all changes from one to another and all places of all pedals were looked at.",
)
SAID = {
    Verdict.PROVED: "Proved: nothing was found, and everything could be told.",
    Verdict.PROVED_SO_FAR: "Proved so far: nothing was found, but facts are missing.",
    Verdict.NO_FAULTS: "No faults: only risks or advice were found.",
    Verdict.NO_FAULTS_SO_FAR: "No faults so far: risks or advice, and facts are missing.",
    Verdict.NOT_CLEAN: "Not clean: something here does not do what was meant.",
}


def proof_paper(rig: str, proof: Proof, *, made: str) -> Paper:
    """The proof of a rig; `made` says when and by which version."""
    return Paper(
        title=f"Proof: {rig}",
        about=(SAID[proof.verdict], *MEANS),
        sections=tuple(_sections(proof, made)),
    )


def _sections(proof: Proof, made: str) -> Iterator[Section]:
    extent = proof.proved
    rows = [
        ("made", made),
        ("found", counts_in_words(proof)),
        (looked(proof), extent_in_words(proof)),
        ("rules", f"{extent.rules}"),
        ("units", f"{extent.units}"),
    ]
    if silent := undescribed_words(proof):
        rows.append(("left out", silent))
    yield Section(title="What was done", table=table_of(("", ""), rows), about="proof")
    if proof.findings:
        yield Section(
            title="What stands",
            says=("Faults first. None of these was accepted by anybody.",),
            table=table_of(("", "finding", "where"), map(_finding, proof.findings)),
        )
    if proof.accepted:
        yield Section(
            title="What was accepted, and why",
            says=("Found, and the people concerned decided to live with it.",),
            table=table_of(
                ("finding", "the reason that was given"),
                [(finding.says, reason) for finding, reason in proof.accepted],
            ),
        )
    if proof.untold:
        yield Section(
            title="What cannot be told",
            says=("A fact is missing for these; none of them counts as proved.",),
            table=table_of(
                ("", "what is missing"), [(one.says, one.lacks) for one in proof.untold]
            ),
        )


def _finding(finding: Finding) -> tuple[str, str, str]:
    return finding.severity.value, finding.says, str(finding.where[0])
