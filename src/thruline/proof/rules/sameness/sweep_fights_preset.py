"""A preset that sets a control to a value at which its sweep does not start."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import two_presets
from thruline.proof.example_sweeps import swept
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.leftover_facts import goal_with
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import counted, some_presets
from thruline.rig.unit import Unit
from thruline.sameness.fights import SweepAndPresets, sweeps_and_presets
from thruline.sameness.words import in_words, name_of


def _look(case: Case) -> Iterator[Result]:
    for one in sweeps_and_presets(case.held.table):
        if one.is_harmless:
            continue
        unit = case.rig.units[one.column.unit]
        presets = [sets.preset for sets in one.elsewhere]
        heel, toe = (in_words(code, one.column, unit) for code in one.ends)
        yield RULE.finding(
            f"{some_presets(presets)} set{'s' if len(presets) == 1 else ''} "
            f"{name_of(one.column)} of "
            f'{unit.name} to a value of its own, and sweep "{one.sweep.name}" moves it from '
            f"{heel} to {toe}",
            one.sweep.address_of(one.move),
            unit.address.child("control", one.column.part),
            evidence=[
                two_presets(
                    *(
                        (sets.preset.title, in_words(sets.code, one.column, unit))
                        for sets in one.elsewhere[:4]
                    ),
                    ("heel and toe", f"{heel} and {toe}"),
                )
            ],
            mends=_mends(one, unit),
        )


def _mends(one: SweepAndPresets, unit: Unit) -> Iterator[Mend]:
    """Start every such preset where the heel is."""
    control, heel = one.column.control, one.ends[0]
    if control is None or any(sets.preset.stored is not None for sets in one.elsewhere):
        return
    edits = tuple(
        goal_with(sets.preset, unit, key=control.id, value=heel)
        for sets in one.elsewhere
        if sets.preset.goal_for(unit.id)
    )
    if edits:
        yield Mend(
            f"Set {control.name} to {heel}, where the heel is, in {counted(len(edits), 'preset')}",
            edits,
        )


RULE = Rule(
    id=rule_id(__name__),
    title="A sweep that fights with presets",
    severity=Severity.RISK,
    why=(
        "The preset sets the control to one value, and the first touch of the pedal throws it to "
        "another. A preset on which a pedal works should start at the pedal's heel or toe."
    ),
    failing=swept(70),
    passing=swept(0),
    look_whole=_look,
)
