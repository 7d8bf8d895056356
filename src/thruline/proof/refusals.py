"""Units that do not take a kind of message that presets send to them."""

from collections.abc import Callable, Iterator, Sequence

from thruline.base.edit import remove, set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.finding import Mend, Result
from thruline.proof.rule import Rule
from thruline.proof.understood import counted, some_presets
from thruline.rig.chart import Governs
from thruline.rig.preset import Goal, Preset
from thruline.rig.unit import Unit, setting_for


def refusals(
    case: Case,
    rule: Rule,
    governs: Governs,
    *,
    takes: Callable[[Unit], bool | None],
    wants: Callable[[Goal], Sequence[str]],
    what: str,
) -> Iterator[Result]:
    """One finding for each unit that is sent what it does not take.

    `wants` gives the parts of a goal that ask for it.
    """
    units = case.rig.units.values()
    unwilling = {u.id: takes(u) for u in units if not takes(u) and u is not case.rig.controller}
    asking: dict[str, list[Preset]] = {}
    for preset in case.rig.presets if unwilling else ():
        for goal in preset.goals:
            if goal.unit in unwilling and wants(goal):
                asking.setdefault(goal.unit, []).append(preset)
    for unit_id, presets in asking.items():
        unit, taken = case.rig.units[unit_id], unwilling[unit_id]
        setting = setting_for(unit, governs)
        where = unit.address.child("settings").child(setting.id) if setting else unit.address
        if taken is None:
            lacks = f"whether it receives {what}, in chart {unit.chart.id}"
            yield rule.untold(
                f"whether {unit.name} takes {what} cannot be told", where, lacks=lacks
            )
            continue
        shown = f'{setting.name} is "{unit.settings[setting.id]}"' if setting else "it is built so"
        yield rule.finding(
            f"{unit.name} takes no {what} ({shown}), and {counted(len(presets), 'preset')} "
            f"send{'s' if len(presets) == 1 else ''} them",
            where,
            evidence=[facts(("setting", shown), ("presets", some_presets(presets)))],
            mends=_mends(unit, governs) if setting else _without(unit, presets, wants, what=what),
        )


def _mends(unit: Unit, governs: Governs) -> Iterator[Mend]:
    setting = setting_for(unit, governs)
    for value in setting.values if setting else ():
        if setting and setting.means.get(value, value) == "on":
            where = unit.address.child("settings").child(setting.id)
            says = f'Set {unit.name} > {setting.name} to "{value}" ({setting.where})'
            yield Mend(says, (set_to(where, value),), is_safe=True)
            return


def _without(
    unit: Unit, presets: Sequence[Preset], wants: Callable[[Goal], Sequence[str]], *, what: str
) -> Iterator[Mend]:
    """No longer ask for it, of a unit that is built so."""
    edits = [
        remove(preset.address_of(goal, part))
        for preset in presets
        for goal in preset.goals
        if goal.unit == unit.id
        for part in wants(goal)
    ]
    yield Mend(f"Ask {unit.name} for no {what}, in {some_presets(presets)}", tuple(edits))
