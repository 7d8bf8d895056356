"""The audio path names a relay loop that the unit does not have."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_boards import a_unit, an_audio_path, board
from thruline.proof.finding import Result, Severity
from thruline.proof.gaps import gap_findings
from thruline.proof.rule import Rule, rule_id
from thruline.rig.whole import Lack


def _look(case: Case) -> Iterator[Result]:
    return gap_findings(case, RULE, {Lack.LOOP})


_DRIVE = a_unit("drive", "russet-drive")

RULE = Rule(
    id=rule_id(__name__),
    title="A relay loop that the unit does not have",
    severity=Severity.FAULT,
    why=(
        "The audio path runs through a relay loop that is not in the unit's chart, so no "
        "preset can put what hangs in it in or out."
    ),
    failing=board(_DRIVE, an_audio_path("guitar", "feet.loop-9[drive]", "amp")),
    passing=board(_DRIVE, an_audio_path("guitar", "feet.loop-1[drive]", "amp")),
    look_whole=_look,
)
