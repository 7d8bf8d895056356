"""A stored pause that the controller cannot make, or more of them than it can."""

from collections.abc import Iterator

from thruline.base.edit import remove
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.controller import Pauses
from thruline.rig.preset import Preset, StoredPause


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    controller = case.rig.controller
    abilities = controller.chart.abilities if controller else None
    if controller is None or abilities is None or preset.stored is None:
        return
    pauses = [one.ms for one in preset.stored if isinstance(one, StoredPause)]
    trouble = _trouble(pauses, abilities.pauses) if pauses else None
    if trouble:
        where = preset.address.child("messages")
        yield RULE.finding(
            f"preset {preset.title} holds {trouble} on {controller.name}",
            where,
            evidence=[facts(("pauses", ", ".join(f"{ms} ms" for ms in pauses)))],
            mends=[Mend("Program the preset again from its goals", (remove(where),))],
        )


def _trouble(pauses: list[int], able: Pauses | None) -> str | None:
    if able is None:
        return f"a pause of {pauses[0]} ms, and there are no pauses"
    for ms in pauses:
        if ms > able.longest_ms:
            return f"a pause of {ms} ms, and {able.longest_ms} ms is the longest"
        if ms % able.step_ms:
            return f"a pause of {ms} ms, and pauses go in steps of {able.step_ms} ms"
    if able.count is not None and len(pauses) > able.count:
        return f"{len(pauses)} pauses, and {able.count} is the most"
    return None


def _stored(wait: int) -> str:
    return f'messages = ["3: control 0 = 0", "3: control 32 = 0", "3: program 6", "wait {wait} ms"]'


RULE = Rule(
    id=rule_id(__name__),
    title="A pause that the controller cannot make",
    severity=Severity.FAULT,
    why=(
        "Controllers differ in the pauses they can put between messages: some have none, some only "
        "whole steps, a few, or short ones. What cannot be entered is not in its memory either."
    ),
    failing=board(
        DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2A" }', _stored(42))
    ),
    passing=board(
        DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2A" }', _stored(40))
    ),
    look_memory=_look,
)
