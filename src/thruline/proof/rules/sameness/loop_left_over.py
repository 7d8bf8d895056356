"""A relay loop whose state depends on which preset one comes from."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_boards import a_preset, a_unit, an_audio_path, board
from thruline.proof.finding import Result, Severity
from thruline.proof.leftover_facts import left_over_findings, set_loop
from thruline.proof.rule import Rule, rule_id
from thruline.sameness.columns import ColumnKind


def _look(case: Case) -> Iterator[Result]:
    return left_over_findings(
        case, RULE, kind=ColumnKind.LOOP, mends=lambda one, _: set_loop(case, one)
    )


RULE = Rule(
    id=rule_id(__name__),
    title="A relay loop left over",
    severity=Severity.RISK,
    why=(
        "Some presets put the loop in or out and others say nothing of it. There it stays "
        "as it was, and with it the unit that hangs in it."
    ),
    failing=board(
        a_unit("drive", "russet-drive"),
        an_audio_path("guitar", "feet.loop-1[drive]", "amp"),
        a_preset(1, "Storm", "drive = 'in'"),
        a_preset(2, "Calm"),
    ),
    passing=board(
        a_unit("drive", "russet-drive"),
        an_audio_path("guitar", "feet.loop-1[drive]", "amp"),
        a_preset(1, "Storm", "drive = 'in'"),
        a_preset(2, "Calm", "drive = 'out'"),
    ),
    look_whole=_look,
)
