"""An output in the middle of the line that keeps everything from what comes after it."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.path.outcome import Outcome
from thruline.path.unplugged import Break
from thruline.path.words import jack_in_words
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_cable, a_preset, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.silences import silences, way_to
from thruline.rig.chart import Governs, Way
from thruline.rig.unit import setting_for

_STOPS = {Outcome.NOT_PASSED_ON, Outcome.NOT_SENT, Outcome.NOT_JOINED}


def _look(case: Case) -> Iterator[Result]:
    for one in silences(case, _STOPS):
        cause = one.cause
        if cause.jack is None:
            continue
        unit = case.rig.units[cause.jack.unit]
        setting = setting_for(unit, Governs.OUTPUT, cause.jack.socket)
        shown = f'{setting.name} is "{unit.settings[setting.id]}"' if setting else cause.why
        where = (
            unit.address.child("settings").child(setting.id)
            if setting
            else unit.address.child(cause.jack.socket)
        )
        yield RULE.finding(
            f"{one.names} hear{'s' if len(one.cut_off) == 1 else ''} nothing: {unit.name} passes "
            f"nothing on at {jack_in_words(case.rig.units, cause.jack)} ({shown})",
            where,
            evidence=[way_to(case, cause), facts(("cut off", one.names))],
            mends=_mends(case, cause),
        )
    for one in silences(case, {Outcome.WAY_UNTOLD, Outcome.FILTER_UNTOLD}):
        if one.cause.jack is not None:
            unit = case.rig.units[one.cause.jack.unit]
            yield RULE.untold(
                f"whether {unit.name} passes on what {one.names} should hear cannot be told",
                unit.address.child(one.cause.jack.socket),
                lacks=f"what output {one.cause.jack.socket} does in chart {unit.chart.id}",
            )


def _mends(case: Case, cause: Break) -> Iterator[Mend]:
    """Set the output so that messages get on; forwarding alone before merging."""
    if cause.jack is None:
        return
    unit = case.rig.units[cause.jack.unit]
    setting = setting_for(unit, Governs.OUTPUT, cause.jack.socket)
    output = unit.chart.outputs.get(cause.jack.socket)
    if setting is None or output is None:
        return
    order = (
        (Way.OWN, Way.MERGE)
        if cause.outcome is Outcome.NOT_SENT
        else (Way.THRU_SOFT, Way.THRU_WIRE, Way.MERGE)
    )
    for wanted in order:
        for value in setting.values:
            if setting.means.get(value, value) == wanted.value and wanted in output.ways:
                where = unit.address.child("settings").child(setting.id)
                says = f'Set {unit.name} > {setting.name} to "{value}" ({setting.where})'
                yield Mend(says, (set_to(where, value),), is_safe=True)
                return


_LINE = (
    a_unit("reverb", "pippin-reverb", "channel = 4"),
    a_cable("feet.midi-out-1", "pre.midi-in"),
    a_cable("pre.midi-out", "reverb.midi-in", 'wiring = "type-a"', ends="din5/trs-3.5"),
    a_preset(1, "Overture", "reverb = { program = 7 }"),
)

RULE = Rule(
    id=rule_id(__name__),
    title="An output that passes nothing on",
    severity=Severity.FAULT,
    why=(
        "A MIDI OUT sends a unit's own messages; only when it is set to thru or merge does it "
        "also pass on what came in. One forgotten menu item makes every unit behind it look "
        "broken."
    ),
    failing=board(
        a_unit("pre", "egremont-preamp", "channel = 2", 'settings = { midi-out = "out" }'), *_LINE
    ),
    passing=board(
        a_unit("pre", "egremont-preamp", "channel = 2", 'settings = { midi-out = "thru" }'), *_LINE
    ),
    look_whole=_look,
)
