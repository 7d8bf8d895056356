"""What a preset wanted and could not be read: of that, no leftover can be concluded.

A label that the unit lacks, a value or a name that means nothing, a message of the memory that is
no message: each is a finding by itself, and what is then missing in the preset only follows.
"""

from collections.abc import Iterator
from typing import TypeAlias

from thruline.base.address import Address
from thruline.proof.case import Case
from thruline.rig.preset import Preset
from thruline.rig.values import NotUnderstood
from thruline.rig.whole import Lack, Unresolved

Spoiled: TypeAlias = tuple[Address, str | None, str | None]
"""A preset, a unit and a part of it; None for all units, or for all parts."""


def is_spoiled(case: Case, preset: Preset, *, unit: str, part: str) -> bool:
    """Whether the preset may have meant to say something about this part, and cannot be read."""
    known = case.kept("spoiled", lambda: frozenset(_all(case)))
    where = preset.address
    return not known.isdisjoint(((where, unit, part), (where, unit, None), (where, None, None)))


def _all(case: Case) -> Iterator[Spoiled]:
    for preset in case.rig.presets:
        for goal in preset.goals:
            if goal.program is not None and goal.program.wire is None:
                yield preset.address, goal.unit, None
            for one in goal.controls:
                if isinstance(one.value, NotUnderstood):
                    yield preset.address, goal.unit, one.control.id
    for gap in case.rig.unresolved:
        if len(gap.address.steps) > 1 and gap.address.steps[0].key == "preset":
            yield _of_gap(gap)


def _of_gap(gap: Unresolved) -> Spoiled:
    """What a name that is not there probably stands for."""
    preset, key = Address(gap.address.steps[:1]), gap.address.steps[1].key
    match gap.lack:
        case Lack.MESSAGE:
            return preset, None, None
        case Lack.UNIT:
            return preset, gap.nearest or key, None
        case _:
            return preset, key, gap.nearest
