"""Units that do not take a kind of message."""

from tests.proof.boards import case_of, proof_of
from thruline.proof.example_boards import a_cable, a_preset, a_unit, board
from thruline.proof.finding import Finding, Result, Untold
from thruline.proof.refusals import refusals
from thruline.proof.rule import Example
from thruline.proof.rulebook import rule_called
from thruline.rig.chart import Governs
from thruline.rig.preset import Goal
from thruline.rig.unit import takes_control

RULE = rule_called("understanding.controls-refused")
PROGRAMS = "understanding.programs-refused"


def look(example: Example) -> list[Result]:
    return list(
        refusals(
            case_of(example),
            RULE,
            Governs.CONTROL_RECEIVE,
            takes=takes_control,
            wants=_wants,
            what="control changes",
        )
    )


def _wants(goal: Goal) -> tuple[str, ...]:
    return tuple(one.control.id for one in goal.controls)


def _echo(value: str, presets: int) -> Example:
    settings = f'settings = {{ control-receive = "{value}" }}'
    goals = [a_preset(n, f"Cue {n}", 'echo = { program = "07", mix = 9 }') for n in range(presets)]
    unit = a_unit("echo", "laxton-echo", "channel = 5", settings)
    return board(unit, a_cable("feet.midi-out-1", "echo.midi-in"), *goals)


def test_one_finding_for_all_presets() -> None:
    (found,) = look(_echo("no", 4))
    assert isinstance(found, Finding)
    assert "4 presets" in found.says
    assert found.mends[0].is_safe


def test_nothing_to_say_where_it_is_taken() -> None:
    assert look(_echo("yes", 2)) == []


def test_what_the_chart_does_not_say_cannot_be_told() -> None:
    unit = a_unit("comp", "nonpareil-compressor", "channel = 6")
    (found,) = look(board(unit, a_preset(1, "Overture", "comp = { amount = 9 }")))
    assert isinstance(found, Untold)
    assert "nonpareil-compressor" in found.lacks


def test_of_a_unit_that_is_built_so_nothing_more_is_asked() -> None:
    goals = [
        a_preset(1, "Cue", 'looper = { program = "1", level = 9 }'),
        a_preset(2, "Cue", 'looper = "1"'),
    ]
    example = board(a_unit("looper", "jonagold-looper", "channel = 5"), *goals)
    (found,) = (one for one in proof_of(example).findings if one.rule == PROGRAMS)
    (mend,) = found.mends
    assert [str(edit.address) for edit in mend.edits] == [
        "preset[1].looper.program",
        "preset[2].looper",
    ]
    assert not mend.is_safe
