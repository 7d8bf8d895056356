"""Every rule held against one case, and the answers put together."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from thruline.proof.acceptances import settled
from thruline.proof.case import Case
from thruline.proof.finding import Finding, Result, Severity, Untold
from thruline.proof.rule import Rule
from thruline.proof.undescribed import undescribed
from thruline.rig.preset import Preset
from thruline.rig.sweep import POSITIONS


class Verdict(StrEnum):
    """A proof in a few words. What cannot be told is never part of a pass."""

    PROVED = "proved"
    """Nothing is found, and everything could be told."""
    PROVED_SO_FAR = "proved so far"
    """Nothing is found, and something cannot be told for want of a fact."""
    NO_FAULTS = "no faults"
    """Only risks or advice are found."""
    NO_FAULTS_SO_FAR = "no faults so far"
    """Only risks or advice are found, and something cannot be told."""
    NOT_CLEAN = "not clean"
    """Something is found that will not do what was meant."""


ORDER = {severity: place for place, severity in enumerate(Severity)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Proved:
    """How much was looked at: every preset, every ordered pair, every pedal position."""

    rules: int
    units: int
    presets: int
    changes: int
    positions: int
    cells: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """The answer about one rig.

    `findings` are sorted: faults first, then risks, then advice, each in rule order. `accepted`
    are those that the document accepts, with the reason. `untold` is what cannot be told,
    `undescribed` the parts of a board that the document is silent about.
    """

    findings: tuple[Finding, ...]
    accepted: tuple[tuple[Finding, str], ...]
    untold: tuple[Untold, ...]
    proved: Proved
    undescribed: tuple[str, ...] = ()

    def count(self, severity: Severity) -> int:
        """How many findings of a severity stand."""
        return sum(finding.severity is severity for finding in self.findings)

    @property
    def is_clean(self) -> bool:
        """Whether no fault stands. Risks, advice and what cannot be told are shown all the same."""
        return self.count(Severity.FAULT) == 0

    @property
    def verdict(self) -> Verdict:
        """The whole in a few words."""
        if not self.is_clean:
            return Verdict.NOT_CLEAN
        if self.findings:
            return Verdict.NO_FAULTS_SO_FAR if self.untold else Verdict.NO_FAULTS
        return Verdict.PROVED_SO_FAR if self.untold else Verdict.PROVED


def prove(
    case: Case, rules: Sequence[Rule], *, step: Callable[[int, int], None] | None = None
) -> Proof:
    """Hold every rule against the case.

    `step` is told how many rules are done of how many, for a progress bar.
    """
    results: list[Result] = []
    for done, rule in enumerate(rules):
        results.extend(look(case, rule))
        if step is not None:
            step(done + 1, len(rules))
    findings = [result for result in results if isinstance(result, Finding)]
    for rule in rules:
        if rule.look_findings is not None:
            late = tuple(rule.look_findings(case, tuple(findings)))
            findings.extend(one for one in late if isinstance(one, Finding))
    standing, accepted = settled(case.rig, findings)
    return Proof(
        findings=tuple(sorted(standing, key=lambda one: (ORDER[one.severity], not one.harms))),
        accepted=accepted,
        untold=_once(result for result in results if isinstance(result, Untold)),
        proved=_extent(case, rules),
        undescribed=undescribed(case.rig),
    )


def _once(untold: Iterable[Untold]) -> tuple[Untold, ...]:
    """Each missing fact of a place once: a rule about single presets meets it in many of them."""
    found: dict[tuple[str, str], Untold] = {}
    for one in untold:
        found.setdefault((one.id, one.lacks), one)
    return tuple(found.values())


def look(case: Case, rule: Rule) -> Sequence[Result]:
    """What one rule finds; results about unchanged parts are taken over from the case before."""
    if rule.look_board is not None:
        kept = case.board.results
        if rule.id not in kept:
            kept[rule.id] = tuple(rule.look_board(case))
        return kept[rule.id]
    if rule.look_preset is not None:
        return _each(case, rule, rule.look_preset, case.rig.presets)
    if rule.look_memory is not None:
        return _each(case, rule, rule.look_memory, case.with_memory)
    return tuple(rule.look_whole(case)) if rule.look_whole is not None else ()


def _each(
    case: Case,
    rule: Rule,
    look_at: Callable[[Case, Preset], Iterable[Result]],
    presets: Sequence[Preset],
) -> Sequence[Result]:
    """What a rule finds in presets, one by one."""
    found: list[Result] = []
    for preset in presets:
        known = case.results_for(preset)
        if rule.id not in known:
            known[rule.id] = tuple(look_at(case, preset))
        found.extend(known[rule.id])
    return found


def _extent(case: Case, rules: Sequence[Rule]) -> Proved:
    """How much was proved: every ordered pair of presets, at every place of every pedal."""
    presets = len(case.rig.presets)
    changes = presets * (presets - 1)
    pedals = len({sweep.pedal for sweep in case.rig.sweeps})
    positions = POSITIONS if pedals else 1
    controls = sum(len(unit.chart.controls) for unit in case.rig.units.values())
    return Proved(
        rules=len(rules),
        units=len(case.rig.units),
        presets=presets,
        changes=changes,
        positions=positions,
        cells=changes * positions * controls,
    )
