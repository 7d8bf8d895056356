"""The same question put to two rigs: what is gone, what is new, what stays."""

from dataclasses import dataclass

from thruline.proof.engine import Proof
from thruline.proof.finding import Finding, Untold


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """What changed from one proof to the next, by the ids of findings."""

    gone: tuple[Finding, ...]
    new: tuple[Finding, ...]
    kept: tuple[Finding, ...]
    newly_untold: tuple[Untold, ...]

    @property
    def is_better(self) -> bool:
        """Whether something is gone and nothing has come."""
        return bool(self.gone) and not self.new and not self.newly_untold


def difference(before: Proof, after: Proof) -> Difference:
    """What a change of the rig did to its proof."""
    names = {id(one): one.id for one in (*before.findings, *after.findings)}  # most are in both
    had = {names[id(finding)] for finding in before.findings}
    has = {names[id(finding)] for finding in after.findings}
    untold = {one.id for one in before.untold}
    return Difference(
        gone=tuple(finding for finding in before.findings if names[id(finding)] not in has),
        new=tuple(finding for finding in after.findings if names[id(finding)] not in had),
        kept=tuple(finding for finding in after.findings if names[id(finding)] in had),
        newly_untold=tuple(one for one in after.untold if one.id not in untold),
    )
