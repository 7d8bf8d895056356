"""A unit or a relay loop that the sound would have to pass twice."""

from collections import Counter
from collections.abc import Iterator

from thruline.base.address import at
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, an_audio_path, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    if case.rig.audio is None:
        return
    stages = case.rig.audio.stages
    loops = Counter(f"{stage.unit}.{stage.loop}" for stage in stages if stage.loop)
    units = Counter(case.rig.audio.units)
    named = [(at("audio").child("loop", loop), loop, count) for loop, count in loops.items()]
    named += [(at("unit", unit), unit, count) for unit, count in units.items()]
    for place, name, count in named:
        if count > 1:
            yield RULE.finding(
                f"the audio path goes through {name} {count} times, and it has one way in and "
                "one out",
                at("audio").child("path"),
                place,
                evidence=[facts(("audio path", " > ".join(stage.written for stage in stages)))],
            )


RULE = Rule(
    id=rule_id(__name__),
    title="Twice in the audio path",
    severity=Severity.FAULT,
    why=(
        "A unit and a relay loop each have one input and one output. A path that goes through one "
        "twice cannot be cabled; most often a line was copied and not changed."
    ),
    failing=board(DELAY, TO_DELAY, an_audio_path("guitar", "delay", "delay", "amp")),
    passing=board(DELAY, TO_DELAY, an_audio_path("guitar", "delay", "amp")),
    look_board=_look,
)
