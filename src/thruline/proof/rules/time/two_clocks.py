"""A unit that hears timing clock from two senders."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.path.hearing import Heard
from thruline.proof.case import Case
from thruline.proof.clocks import clocks_heard
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_cable, a_unit
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Example, Rule, rule_id
from thruline.rig.unit import Unit, takes_clock


def _look(case: Case) -> Iterator[Result]:
    for unit in case.rig.units.values():
        sources = [source for source, heard in clocks_heard(case, unit) if heard is Heard.YES]
        if len(sources) > 1 and takes_clock(unit):
            names = " and ".join(source.name for source in sources)
            yield RULE.finding(
                f"{unit.name} hears timing clock from {names}: it runs at double speed or stumbles",
                unit.address,
                evidence=[facts(*((source.name, "sends clock") for source in sources))],
                mends=[mend for source in sources for mend in _silence(source)],
            )


def _silence(source: Unit) -> Iterator[Mend]:
    """Turn the sender's clock off, where a setting does that."""
    for send in source.chart.sends:
        setting = source.chart.settings.get(send.setting or "")
        if send.what != "clock" or setting is None:
            continue
        for value in setting.values:
            if setting.means.get(value, value) == "off":
                where = source.address.child("settings").child(setting.id)
                yield Mend(
                    f'Set {source.name} > {setting.name} to "{value}"', (set_to(where, value),)
                )
                return


def _feet(clock: str) -> str:
    return f'settings = {{ clock = "{clock}", midi-out-1 = "Merge" }}'


def _rig(clock: str) -> str:
    rows = (
        f'[[unit]]\nid = "feet"\nchart = "braeburn-six"\n{_feet(clock)}\n',
        a_unit("tap", "cripps-clock", 'settings = { run = "on" }'),
        a_unit("delay", "bramley-delay", "channel = 3"),
        a_cable("tap.midi-out", "feet.midi-in", 'wiring = "type-a"', ends="trs-3.5/din5"),
        a_cable("feet.midi-out-1", "delay.midi-in"),
    )
    return "\n".join(rows)


RULE = Rule(
    id=rule_id(__name__),
    title="Two clocks",
    severity=Severity.FAULT,
    why=(
        "Timing clock is 24 bytes a beat, with no name on them. From two senders a unit counts "
        "48, so its echoes come at half length, or it wanders between the two."
    ),
    failing=Example(_rig("On")),
    passing=Example(_rig("Off")),
    look_board=_look,
)
