"""A control that jumps at the first movement of a pedal."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import two_presets
from thruline.proof.example_sweeps import swept
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import some_presets
from thruline.sameness.fights import sweeps_and_presets
from thruline.sameness.jumps import Jump, jumps
from thruline.sameness.words import in_words, name_of

AUDIBLE = 12
"""Steps of a control, of 127, from which a jump is told: about a tenth of its range."""


def _look(case: Case) -> Iterator[Result]:
    fights = {
        (one.sweep.address, one.column.unit, one.column.part, sets.preset.address)
        for one in sweeps_and_presets(case.held.table)
        for sets in one.elsewhere
    }
    for one in jumps(case.held.table):
        key = (one.sweep.address, one.column.unit, one.column.part)
        told = [
            jump
            for jump in one.jumps
            if (*key, jump.preset.address) not in fights and _is_loud(jump)
        ]
        if not told:
            continue
        unit = case.rig.units[one.column.unit]
        worst = max(told, key=lambda jump: jump.steps or 0)
        now = in_words(worst.code, one.column, unit)
        then = in_words(worst.to, one.column, unit)
        yield RULE.finding(
            f"{name_of(one.column)} of {unit.name} can jump when the pedal of "
            f'"{one.sweep.name}" is first '
            f"moved: in {some_presets([jump.preset for jump in told])} it stands at {now} and "
            "the pedal "
            f"may stand at {worst.place} of 127, which is {then}",
            one.sweep.address_of(one.move),
            unit.address.child("control", one.column.part),
            evidence=[
                two_presets(
                    *(
                        (jump.preset.title, f"from {jump.code} to {jump.to}: {jump.steps} steps")
                        for jump in told[:4]
                    ),
                    (
                        "what helps",
                        "a pedal input that sends its place on recall, or pedal to the heel",
                    ),
                )
            ],
        )


def _is_loud(jump: Jump) -> bool:
    return jump.steps is not None and jump.steps > AUDIBLE


RULE = Rule(
    id=rule_id(__name__),
    title="A sweep that jumps",
    severity=Severity.ADVICE,
    why=(
        "After a recall the control has the preset's value while the pedal stands somewhere else. "
        "The first movement sends the pedal's value, and the sound jumps there."
    ),
    failing=swept(0),
    passing=swept(0, toe=8),
    look_whole=_look,
)
