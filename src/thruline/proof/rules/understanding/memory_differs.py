"""A stored preset that leaves a control at another value than its goals ask for."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_memories import BANK, stored
from thruline.proof.finding import Result, Severity
from thruline.proof.memories import WrongValue, wrong_values
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import program_again
from thruline.rig.preset import Preset


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    wrong = list(wrong_values(case, preset))
    if wrong:
        first = wrong[0]
        more = f" and {len(wrong) - 1} more" if len(wrong) > 1 else ""
        yield RULE.finding(
            f"preset {preset.title} wants {first.control} of {first.unit.name} at "
            f"{first.wanted.shown}, and the controller {_holds(first)}{more}",
            preset.address.child("messages"),
            evidence=[facts(*(_row(one) for one in wrong))],
            mends=program_again(preset),
        )


def _row(one: WrongValue) -> tuple[str, str]:
    wanted = f"wanted {one.wanted.wire} ({one.wanted.shown})"
    return f"{one.unit.name}: {one.control}", f"{wanted}, the controller {_holds(one)}"


def _holds(one: WrongValue) -> str:
    return "sends nothing for it" if one.got is None else f"sends {one.got}"


_GOALS = 'delay = { program = "2A", mix = 64 }'

RULE = Rule(
    id=rule_id(__name__),
    title="The controller holds something else",
    severity=Severity.FAULT,
    why=(
        "What is in the controller's memory is not what the preset asks for. Changes were made on "
        "paper and not entered, or entered and not written."
    ),
    failing=stored(*BANK, "3: program 6", "wait 60 ms", "3: control 52 = 30", goals=_GOALS),
    passing=stored(*BANK, "3: program 6", "wait 60 ms", "3: control 52 = 64", goals=_GOALS),
    look_memory=_look,
)
