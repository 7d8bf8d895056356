"""Units in a relay loop that no preset ever switches in."""

from collections.abc import Iterator

from thruline.base.address import at
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_preset, a_unit, an_audio_path, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    if case.rig.audio is None or not case.rig.presets:
        return
    switched_in = {
        goal.unit for preset in case.rig.presets for goal in preset.goals if goal.in_loop
    }
    for stage in {one.written: one for one in case.rig.audio.stages}.values():
        if stage.loop and stage.inside and switched_in.isdisjoint(stage.inside):
            names = " and ".join(case.rig.units[unit].name for unit in stage.inside)
            yield RULE.finding(
                f"{names} in {stage.unit} {stage.loop} is never heard: no preset puts that loop in",
                *(case.rig.units[unit].address for unit in stage.inside),
                at("audio").child("loop", f"{stage.unit}.{stage.loop}"),
                evidence=[
                    facts(
                        ("loop", stage.written), ("presets", f"{len(case.rig.presets)} looked at")
                    )
                ],
            )


_DRIVE = (
    a_unit("drive", "russet-drive"),
    an_audio_path("guitar", "feet.loop-1[drive]", "amp"),
)

RULE = Rule(
    id=rule_id(__name__),
    title="A loop that is never put in",
    severity=Severity.RISK,
    why=(
        "What hangs in a relay loop is heard only while the loop is in. No preset does that, so "
        "the unit is carried for nothing, or a preset lacks a row."
    ),
    failing=board(*_DRIVE, a_preset(1, "Overture", 'drive = "out"')),
    passing=board(*_DRIVE, a_preset(1, "Overture", 'drive = "in"')),
    look_whole=_look,
)
