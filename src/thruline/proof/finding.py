"""Findings: what a rule found, on what evidence, and which edits would remove it."""

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from thruline.base.address import Address
from thruline.base.edit import Edit
from thruline.proof.evidence import Evidence


class Severity(StrEnum):
    """How bad it is."""

    FAULT = "fault"
    """What was meant does not happen."""
    RISK = "risk"
    """It goes wrong under some circumstances."""
    ADVICE = "advice"
    """Nothing goes wrong, yet there is a better way."""


@dataclass(frozen=True, slots=True)
class Mend:
    """Edits that would remove a finding, named in words that say exactly what is done.

    `is_safe` marks mends that only bring the document to what it already asks for elsewhere; the
    others take a decision that a person should take.
    """

    says: str
    edits: tuple[Edit, ...]
    is_safe: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What is wrong, where, and why we think so.

    `says` is one sentence in trade words. `where` are addresses, the most telling one first. What
    `harms` can destroy a unit or hurt somebody, and is told before all others.
    Raises ValueError when there is no place or no evidence: such a finding helps nobody.
    """

    rule: str
    severity: Severity
    says: str
    where: tuple[Address, ...]
    evidence: tuple[Evidence, ...]
    mends: tuple[Mend, ...] = ()
    harms: bool = False

    def __post_init__(self) -> None:
        if not self.where or not self.evidence:
            raise ValueError(f"a finding of {self.rule} has no place or no evidence")

    @property
    def id(self) -> str:
        """A name that survives edits elsewhere: the rule and the places, never rows of a file."""
        return f"{self.rule} at {' and '.join(str(address) for address in self.where)}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Untold:
    """What a rule cannot tell, because a fact is missing. Never a pass, never a finding.

    `lacks` names the fact and the chart it should stand in.
    """

    rule: str
    says: str
    where: tuple[Address, ...]
    lacks: str

    @property
    def id(self) -> str:
        """A name that survives edits elsewhere."""
        return f"{self.rule} at {' and '.join(str(address) for address in self.where)}"


Result: TypeAlias = Finding | Untold
