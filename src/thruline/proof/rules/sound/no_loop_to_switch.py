"""A preset puts a unit in or out, and the unit hangs in no loop that can be switched."""

from collections.abc import Iterator

from thruline.base.edit import remove
from thruline.compose.unsent import why_no_loop
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_preset, a_unit, an_audio_path, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.preset import Preset


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    for goal in preset.goals:
        if goal.in_loop is None:
            continue
        trouble = why_no_loop(case.rig, goal.unit)
        if trouble:
            written = preset.address_of(goal, "loop")
            word = "in" if goal.in_loop else "out"
            name = case.rig.units[goal.unit].name
            yield RULE.finding(
                f'preset {preset.title} puts {name} "{word}", and {trouble}',
                preset.address.child(goal.unit).child("loop"),
                evidence=[facts(("wanted", word), ("audio path", _path(case)))],
                mends=[Mend(f'Take "{word}" out of the preset', (remove(written),))],
            )


def _path(case: Case) -> str:
    stages = case.rig.audio.stages if case.rig.audio else ()
    return " > ".join(stage.written for stage in stages) or "none"


_DRIVE = a_unit("drive", "russet-drive")

RULE = Rule(
    id=rule_id(__name__),
    title="No loop to switch",
    severity=Severity.FAULT,
    why=(
        "A unit without MIDI is switched by the relay loop that it hangs in. Here there is none "
        "that the controller can reach, so the preset cannot do what it says."
    ),
    failing=board(
        _DRIVE,
        an_audio_path("guitar", "drive", "amp"),
        a_preset(1, "Overture", 'drive = "in"'),
    ),
    passing=board(
        _DRIVE,
        an_audio_path("guitar", "feet.loop-1[drive]", "amp"),
        a_preset(1, "Overture", 'drive = "in"'),
    ),
    look_preset=_look,
)
