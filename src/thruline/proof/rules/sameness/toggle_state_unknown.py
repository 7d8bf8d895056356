"""A switch that presets flip blindly."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import two_presets
from thruline.proof.example_boards import a_cable, a_preset, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import some_presets
from thruline.sameness.toggles import Toggle, toggles


def _look(case: Case) -> Iterator[Result]:
    for one in toggles(case.rig, case.rig.presets, case.runs(), strokes=case.strokes):
        unit = case.rig.units[one.unit]
        where = unit.address.child("control", one.control.id)
        if one.flipped_by or one.swept_by:
            yield RULE.finding(
                f"{one.control.name} of {unit.name} flips at every message, and nobody can know "
                "which way: "
                f"{_who(one)} flip it",
                where,
                evidence=[two_presets(*_rows(one))],
            )
        elif one.untold_in:
            yield RULE.untold(
                f"whether {one.control.name} of {unit.name} is on or off cannot be told",
                where,
                lacks=f"stored or settle of control {one.control.id} in chart {unit.chart.id}",
            )


def _who(one: Toggle) -> str:
    names = [some_presets([flip.preset for flip in one.flipped_by])] if one.flipped_by else []
    names += [f'sweep "{sweep.name}"' for sweep in one.swept_by]
    return " and ".join(names)


def _rows(one: Toggle) -> Iterator[tuple[str, str]]:
    for flip in one.flipped_by[:4]:
        yield flip.preset.title, f"flips it {flip.times} times" if flip.times > 1 else "flips it"
    if one.unknown_in:
        yield "on or off by chance in", some_presets(one.unknown_in)


def _preset(control: str) -> str:
    return a_preset(1, "Storm", f'looper = {{ {control} = "press" }}')


_LOOPER = (
    a_unit("looper", "jonagold-looper", "channel = 9"),
    a_cable("feet.midi-out-1", "looper.midi-in"),
)

RULE = Rule(
    id=rule_id(__name__),
    title="A switch flipped blindly",
    severity=Severity.FAULT,
    why=(
        "The control has no on and no off, only the other way. After one press too many it is the "
        "wrong way round and stays so. Such controls belong under the foot, not into presets."
    ),
    failing=board(*_LOOPER, _preset("play")),
    passing=board(*_LOOPER, _preset("clear")),
    look_whole=_look,
)
