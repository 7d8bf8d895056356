"""A control change that comes while the unit loads a program and is deaf."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from thruline.base.measures import shown_ms
from thruline.proof.case import Case
from thruline.proof.evidence import Evidence, times
from thruline.proof.example_memories import BANK, stored
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import (
    Met,
    counted,
    message_words,
    met_at,
    program_again,
    some_presets,
)
from thruline.proof.working import TOO_EARLY
from thruline.rig.preset import Preset
from thruline.rig.unit import Unit
from thruline.timing.fate import Fate
from thruline.timing.sending import Purpose

_Lost = dict[str, list[tuple[Preset, list[Met]]]]


@dataclass(frozen=True, slots=True)
class _Early:
    """What came too early at one unit: surely lost, and whether the fate of others is in doubt.

    `for_others`: the unit was loading a program that was meant for another one.
    """

    lost: list[Met]
    is_doubtful: bool
    for_others: bool


def _look(case: Case) -> Iterator[Result]:
    composed: _Lost = defaultdict(list)
    doubtful: set[str] = set()
    for preset in case.rig.presets:
        for unit_id, early in _early_in(case, preset).items():
            if early.is_doubtful:
                doubtful.add(unit_id)
            if early.lost and preset.stored is not None:
                yield _stored(case, preset, early.lost)
            elif early.lost and not early.for_others:
                composed[unit_id].append((preset, early.lost))
    for unit_id, found in composed.items():
        yield _composed(case, case.rig.units[unit_id], found)
    doubtful |= _of_unknown_settle(case)
    for unit_id in sorted(doubtful):
        unit = case.rig.units[unit_id]
        yield RULE.untold(
            f"what becomes of control changes while {unit.name} loads a program cannot be told",
            unit.address,
            lacks=f"settle in chart {unit.chart.id}",
        )


def _of_unknown_settle(case: Case) -> set[str]:
    """Units that some preset sends a program and then controls, and whose charts know no settle."""
    unknown = {
        unit.id
        for unit in case.rig.units.values()
        if unit.chart.settle is None and unit.chart.programs is not None and unit.chart.controls
    }
    return {
        goal.unit
        for preset in (case.rig.presets if unknown else ())
        for goal in preset.goals
        if goal.unit in unknown and goal.program and goal.controls
    } & case.addressed


def _loads_for_others(case: Case, preset: Preset, unit_id: str) -> bool:
    """Whether a program that is meant for another unit loads this one; that is told by itself."""
    run = case.run(preset)
    fates = run.receptions[unit_id].fates
    return any(
        item.purpose is Purpose.PROGRAM and item.unit != unit_id and fate is Fate.OBEYED
        for one, fate in zip(run.heard[unit_id], fates, strict=True)
        for item in (run.sending.items[one.place],)
    )


def _early_in(case: Case, preset: Preset) -> dict[str, _Early]:
    return case.kept_for(preset, "too early", lambda: _too_early(case, preset))


def _too_early(case: Case, preset: Preset) -> dict[str, _Early]:
    """Control changes that came while their unit was loading, and were not obeyed for it."""
    found: dict[str, _Early] = {}
    for unit_id, reception in case.run(preset).receptions.items():
        if not reception.loading or TOO_EARLY.isdisjoint(reception.fates):
            continue
        early = [
            one
            for one in met_at(case, preset, unit_id)
            if one.item.purpose is Purpose.CONTROL and one.fate in TOO_EARLY
        ]
        if early:
            lost = [one for one in early if one.fate is Fate.LOST]
            for_others = _loads_for_others(case, preset, unit_id)
            found[unit_id] = _Early(lost, len(lost) < len(early), for_others)
    return found


def _stored(case: Case, preset: Preset, lost: list[Met]) -> Result:
    unit = lost[0].unit
    return RULE.finding(
        f"preset {preset.title} sends {unit.name} {counted(len(lost), 'control change')} while it "
        f"still loads: {'it is' if len(lost) == 1 else 'they are'} lost",
        preset.address.child("messages"),
        unit.address,
        evidence=[_when(case, preset, lost)],
        mends=program_again(preset),
    )


def _composed(case: Case, unit: Unit, found: list[tuple[Preset, list[Met]]]) -> Result:
    presets = [preset for preset, _ in found]
    controller = case.rig.controller
    name = controller.name if controller else "the controller"
    return RULE.finding(
        f"{unit.name} is deaf while it loads, and {name} cannot wait that long: control changes of "
        f"{some_presets(presets)} are lost",
        unit.address,
        evidence=[_when(case, presets[0], found[0][1])],
    )


def _when(case: Case, preset: Preset, lost: list[Met]) -> Evidence:
    unit = lost[0].unit
    _, until = case.run(preset).receptions[unit.id].loading[-1]
    rows = [
        (message_words(one.item.data), f"begins at {shown_ms(one.heard.arrival.start_us)}: lost")
        for one in lost[:6]
    ]
    return times(("loading until", shown_ms(until)), *rows)


RULE = Rule(
    id=rule_id(__name__),
    title="Control changes lost while a unit loads",
    severity=Severity.FAULT,
    why=(
        "A unit that loads a program may be deaf to control changes for some time. What comes too "
        "soon is gone, without a trace; sent by hand a second later the same message works."
    ),
    failing=stored(*BANK, "3: program 6", "3: control 52 = 64"),
    passing=stored(*BANK, "3: program 6", "wait 60 ms", "3: control 52 = 64"),
    look_whole=_look,
)
