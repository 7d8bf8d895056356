"""A unit in omni mode behind a controller that speaks to others as well."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.chart import Governs
from thruline.rig.unit import Unit, is_omni, setting_for


def _look(case: Case) -> Iterator[Result]:
    controller = case.rig.controller
    if controller is None:
        return
    for unit in case.rig.units.values():
        others = [one for one in case.rig.units.values() if one is not unit and one.chart.listens]
        omni = is_omni(unit)
        heard = bool(case.hearing.routes_between(controller.id, unit.id))
        if omni is False or not others or not heard:
            continue
        setting = setting_for(unit, Governs.OMNI)
        where = unit.address.child("settings").child(setting.id) if setting else unit.address
        if omni is None:
            lacks = f"what its omni setting means, in chart {unit.chart.id}"
            yield RULE.untold(
                f"whether {unit.name} hears every channel cannot be told", where, lacks=lacks
            )
            continue
        names = ", ".join(one.name for one in others[:4])
        yield RULE.finding(
            f"{unit.name} listens to every channel: what is meant for {names} also changes it",
            where,
            evidence=[facts(("hears", "channels 1 to 16"), ("meant for others", names))],
            mends=_mends(unit),
        )


def _mends(unit: Unit) -> Iterator[Mend]:
    setting = setting_for(unit, Governs.OMNI)
    for value in setting.values if setting else ():
        if setting and setting.means.get(value, value) == "off":
            where = unit.address.child("settings").child(setting.id)
            says = f'Set {unit.name} > {setting.name} to "{value}" ({setting.where})'
            yield Mend(says, (set_to(where, value),), is_safe=True)
            return


def _lights(omni: str) -> str:
    return a_unit("lights", "discovery-lights", "channel = 16", f'settings = {{ omni = "{omni}" }}')


_ON = (DELAY, TO_DELAY, a_cable("delay.midi-thru", "lights.midi-in"))

RULE = Rule(
    id=rule_id(__name__),
    title="A unit that listens to every channel",
    severity=Severity.FAULT,
    why=(
        "In omni mode a unit takes everything for its own. Many units leave the factory like "
        "that, and go back to it when they are reset. Alone on a line that is handy; among others "
        "it is trouble."
    ),
    failing=board(*_ON, _lights("All")),
    passing=board(*_ON, _lights("One")),
    look_board=_look,
)
