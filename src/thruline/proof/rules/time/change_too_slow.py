"""A change of preset that takes longer than the rig allows."""

from collections.abc import Iterator

from thruline.base.address import at
from thruline.base.edit import set_to
from thruline.base.measures import shown_ms
from thruline.proof.case import Case
from thruline.proof.evidence import times
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Example, Rule, rule_id
from thruline.proof.slowness import slowest_units
from thruline.rig.preset import Preset

MOST_MS = 10_000
"""What a rig document can allow at most."""


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    right, limit = case.run(preset).right_us, case.rig.slowest_change_us
    if right > limit:
        bound = case.composed(preset).ordered.bound_us
        yield RULE.finding(
            f"preset {preset.title} is right {shown_ms(right)} after the press; "
            f"{shown_ms(limit)} is "
            "allowed",
            preset.address,
            evidence=[
                times(*slowest_units(case, preset), ("cannot be faster than", shown_ms(bound)))
            ],
            mends=_mends(-(-right // 1000)),
        )


def _mends(milliseconds: int) -> Iterator[Mend]:
    if milliseconds <= MOST_MS:
        where = at("rig").child("slowest-change-ms")
        yield Mend(f"Allow a change to take {milliseconds} ms", (set_to(where, milliseconds),))


def _rig(limit: int) -> Example:
    head = (
        f'format = 1\n\n[rig]\nname = "Example"\ncontroller = "feet"\nslowest-change-ms = {limit}\n'
    )
    feet = '[[unit]]\nid = "feet"\nchart = "braeburn-six"\n'
    preset = a_preset(1, "Overture", 'delay = { program = "2A", mix = 64 }')
    return Example(f"{head}\n{feet}\n{DELAY}\n{TO_DELAY}\n{preset}")


RULE = Rule(
    id=rule_id(__name__),
    title="A change that takes too long",
    severity=Severity.RISK,
    why=(
        "From the press until the last unit is right, the sound is a mixture of two presets. How "
        "long that may take the player decides; this preset takes longer."
    ),
    failing=_rig(40),
    passing=_rig(100),
    look_preset=_look,
)
