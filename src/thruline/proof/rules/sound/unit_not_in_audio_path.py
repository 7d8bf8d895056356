"""A unit with audio sockets that the sound never goes through."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, an_audio_path, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.socket import SocketKind


def _look(case: Case) -> Iterator[Result]:
    if case.rig.audio is None:
        return
    met = set(case.rig.audio.units)
    met |= {stage.unit for stage in case.rig.audio.stages if stage.unit}
    for unit in case.rig.units.values():
        kinds = {socket.kind for socket in unit.chart.sockets.values()}
        has_audio = {SocketKind.AUDIO_IN, SocketKind.AUDIO_OUT} <= kinds
        if has_audio and unit.id not in met and not unit.chart.abilities:
            yield RULE.finding(
                f"the sound never goes through {unit.name}: it is not in the audio path",
                unit.address,
                evidence=[facts(("audio path", _path(case)))],
            )


def _path(case: Case) -> str:
    return " > ".join(stage.written for stage in case.rig.audio.stages) if case.rig.audio else ""


RULE = Rule(
    id=rule_id(__name__),
    title="A unit outside the audio path",
    severity=Severity.RISK,
    why=(
        "The unit is on the board and gets its messages, and no sound goes through it. Either it "
        "was forgotten in the audio path, or it can stay at home."
    ),
    failing=board(DELAY, TO_DELAY, an_audio_path("guitar", "amp")),
    passing=board(DELAY, TO_DELAY, an_audio_path("guitar", "delay", "amp")),
    look_board=_look,
)
