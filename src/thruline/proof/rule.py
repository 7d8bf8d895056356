"""What a rule is. Each stands in a file of its own; its id is its place: `family.file-name`."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import StrEnum

from thruline.base.address import Address
from thruline.proof.case import Case
from thruline.proof.evidence import Evidence
from thruline.proof.finding import Finding, Mend, Result, Severity, Untold
from thruline.rig.preset import Preset


class Scope(StrEnum):
    """What a rule has to look at together; results are kept as long as none of it changes."""

    BOARD = "board"
    """Units, settings, cables, power and audio; no presets."""
    PRESET = "preset"
    """One preset on that board, whatever the others are."""
    MEMORY = "memory"
    """One preset whose stored messages are written down, whatever the others are."""
    WHOLE = "whole"
    """Everything."""
    FINDINGS = "findings"
    """What the other rules found."""


@dataclass(frozen=True, slots=True)
class Example:
    """A small rig document, and charts of its own if the samples have none that fits.

    The head (`format`, `[rig]`) may be left out; then the controller is `feet`.
    """

    rig: str
    charts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A rule: named for the fault, told in trade words. Exactly one of the looks is given."""

    id: str
    title: str
    severity: Severity
    why: str
    failing: Example
    passing: Example
    look_board: Callable[[Case], Iterable[Result]] | None = None
    look_preset: Callable[[Case, Preset], Iterable[Result]] | None = None
    look_memory: Callable[[Case, Preset], Iterable[Result]] | None = None
    look_whole: Callable[[Case], Iterable[Result]] | None = None
    look_findings: Callable[[Case, tuple[Finding, ...]], Iterable[Result]] | None = None

    @property
    def scope(self) -> Scope:
        """What the rule looks at together."""
        if self.look_board is not None:
            return Scope.BOARD
        if self.look_preset is not None:
            return Scope.PRESET
        if self.look_memory is not None:
            return Scope.MEMORY
        return Scope.WHOLE if self.look_whole is not None else Scope.FINDINGS

    def finding(
        self,
        says: str,
        *where: Address,
        evidence: Iterable[Evidence],
        mends: Iterable[Mend] = (),
        severity: Severity | None = None,
        harms: bool = False,
    ) -> Finding:
        """A finding of this rule."""
        return Finding(
            rule=self.id,
            severity=severity or self.severity,
            says=says,
            where=where,
            evidence=tuple(evidence),
            mends=tuple(mends),
            harms=harms,
        )

    def untold(self, says: str, *where: Address, lacks: str) -> Untold:
        """A note that this rule cannot tell."""
        return Untold(rule=self.id, says=says, where=where, lacks=lacks)


def rule_id(module: str) -> str:
    """The id of the rule in a module: its last two names, with hyphens."""
    return ".".join(module.split(".")[-2:]).replace("_", "-")
