"""A unit that follows timing clock, on a board where nobody sends any."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.clocks import clock_sources
from thruline.proof.evidence import facts
from thruline.proof.example_boards import TO_DELAY, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.chart import Governs
from thruline.rig.unit import Unit, setting_for, takes_clock


def _look(case: Case) -> Iterator[Result]:
    if clock_sources(case):
        return
    for unit in case.rig.units.values():
        setting = setting_for(unit, Governs.CLOCK_RECEIVE)
        # Only a setting that somebody made tells that a clock is wanted.
        if setting is not None and setting.id in unit.stated and takes_clock(unit):
            yield RULE.finding(
                f"{unit.name} is set to follow timing clock, and nothing on this board sends any",
                unit.address.child("settings").child(setting.id),
                evidence=[
                    facts((setting.name, unit.settings[setting.id]), ("clock senders", "none"))
                ],
                mends=_off(unit),
            )


def _off(unit: Unit) -> Iterator[Mend]:
    setting = setting_for(unit, Governs.CLOCK_RECEIVE)
    for value in setting.values if setting else ():
        if setting and setting.means.get(value, value) == "off":
            where = unit.address.child("settings").child(setting.id)
            yield Mend(f'Set {unit.name} > {setting.name} to "{value}"', (set_to(where, value),))
            return


def _delay(clock: str) -> str:
    return a_unit("delay", "bramley-delay", "channel = 3", f'settings = {{ clock = "{clock}" }}')


RULE = Rule(
    id=rule_id(__name__),
    title="A clock that nobody sends",
    severity=Severity.RISK,
    why=(
        "Set to follow a clock, some units wait for it and hold their last tempo, others stand "
        "still. Either something must send a clock, or the unit should keep its own time."
    ),
    failing=board(_delay("on"), TO_DELAY),
    passing=board(_delay("off"), TO_DELAY),
    look_board=_look,
)
