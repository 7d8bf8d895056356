"""A proof as one page of HTML that needs nothing else: no script, no file beside it, no network."""

from dataclasses import dataclass

from thruline.papers.page import filled
from thruline.papers.paper import Figure
from thruline.papers.proof_words import counts_in_words, extent_in_words, looked, undescribed_words
from thruline.proof.engine import Proof
from thruline.proof.finding import Finding, Mend


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """A finding with what a reader needs beside it.

    `spot` is where it stands in the document; `title` and `why` are those of its rule. `mends` have
    the names by which the command line knows them.
    """

    finding: Finding
    title: str
    why: str
    spot: str
    mends: tuple[tuple[str, Mend], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StepShown:
    """A mend that was made: what it was for, what it changed, what it brought to light."""

    finding: str
    says: str
    is_safe: bool
    diff: tuple[str, ...]
    brings: tuple[str, ...]
    after: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """All that goes on the page. `found` is the sum before any of the `steps` was made."""

    rig: str
    about: str
    file: str
    proof: Proof
    cards: tuple[Card, ...]
    figures: tuple[Figure, ...]
    found: str = ""
    steps: tuple[StepShown, ...] = ()

    @property
    def counts(self) -> str:
        """How many findings stand."""
        return counts_in_words(self.proof)

    @property
    def extent(self) -> str:
        """How much was proved."""
        return extent_in_words(self.proof)

    @property
    def looked(self) -> str:
        """What was done with them: proved, or only looked at."""
        return looked(self.proof)

    @property
    def silent(self) -> str:
        """What the document does not describe; empty where it describes everything."""
        return undescribed_words(self.proof)

    @property
    def mark(self) -> str:
        """How the sum is coloured: by the worst that stands, or by what cannot be told."""
        if self.proof.findings:
            return self.proof.findings[0].severity.value
        return "open" if self.proof.untold else "good"


def report_html(report: Report) -> str:
    """The page."""
    return filled("report.html.j2", report=report)
