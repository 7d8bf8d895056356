"""A mend is only as good as the proof of the rig that it leaves."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from thruline.base.edit import Edit
from thruline.base.errors import CannotUse
from thruline.proof.difference import Difference, difference
from thruline.proof.engine import Proof
from thruline.proof.finding import Finding, Mend

Again: TypeAlias = Callable[[Sequence[Edit]], Proof]
"""Proves the rig as it is after these edits. Raises CannotUse when they cannot be made."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """A mend with what it does.

    `effect` is None when the edit cannot be made; `trouble` then says why.
    """

    finding: Finding
    mend: Mend
    effect: Difference | None
    trouble: str = ""

    @property
    def works(self) -> bool:
        """Whether the finding is gone with it."""
        return self.effect is not None and any(
            one.id == self.finding.id for one in self.effect.gone
        )

    @property
    def is_safe(self) -> bool:
        """Whether it decides nothing for the person, works, and makes nothing else worse."""
        return (
            self.mend.is_safe and self.works and self.effect is not None and self.effect.is_better
        )


def weigh(proof: Proof, finding: Finding, *, mend: Mend, again: Again) -> Weighed:
    """What a mend of a finding would do."""
    try:
        after = again(mend.edits)
    except CannotUse as trouble:
        return Weighed(finding=finding, mend=mend, effect=None, trouble=trouble.says)
    return Weighed(finding=finding, mend=mend, effect=difference(proof, after))


def weigh_all(proof: Proof, again: Again) -> Iterator[Weighed]:
    """Every mend of every finding weighed, one by one, in the order of the findings."""
    for finding in proof.findings:
        for mend in finding.mends:
            yield weigh(proof, finding, mend=mend, again=again)
