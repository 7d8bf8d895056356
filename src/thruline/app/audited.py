"""From the answer of an audit to a search: what the capture makes likely is suspected first."""

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Any

from thruline.audit.fault import Family
from thruline.base.errors import CannotUse
from thruline.find.experience import Experience
from thruline.find.kinds import Kind
from thruline.find.meant import meant_by
from thruline.find.suspect import Suspect
from thruline.find.suspects import suspects_of
from thruline.proof.case import Case

BY_AUDIT = 5.0
"""How many earlier cases a cause counts as that the audit is sure of."""
_KINDS: Mapping[Family, tuple[Kind, ...]] = MappingProxyType(
    {
        Family.STALE: (Kind.MEMORY_NOT_WRITTEN,),
        Family.STALE_ALL: (Kind.MEMORY_NOT_WRITTEN,),
        Family.SLOTS: (Kind.PAGE_WRONG,),
        Family.NUMBERING: (Kind.ENTRY_ONE_UP, Kind.ENTRY_ONE_DOWN),
        Family.NUMBER: (Kind.CONTROL_OTHER_NUMBER,),
        Family.REVERSED: (Kind.PEDAL_REVERSED,),
        Family.CHANNEL: (Kind.ENTRY_OTHER_CHANNEL,),
        Family.SWAPPED: (Kind.ENTRY_OTHER_CHANNEL,),
        Family.OMITTED: (Kind.ENTRY_MISSING, Kind.CONTROLS_NOT_SENT),
        Family.FILTER: (Kind.ENTRY_MISSING, Kind.CONTROLS_NOT_SENT),
        Family.SHUT: (Kind.OUTPUT_NOT_PASSING,),
        Family.SWALLOWED: (Kind.OUTPUT_NOT_PASSING,),
    }
)
"""The suspects that explain a mistake of the audit."""


def experience_by_audit(case: Case, told: Mapping[str, Any]) -> Experience:
    """What `thruline audit --json` told, as if its causes had been the culprits before.

    Raises CannotUse when it is no such answer, or one about another rig.
    """
    if told.get("answers") != "audit" or not isinstance(told.get("causes"), list):
        raise CannotUse(
            "this is no answer of an audit: `thruline audit RIG CAPTURE --json` writes one"
        )
    if told.get("rig") != case.rig.name:
        raise CannotUse(f'this audit is about the rig "{told.get("rig")}", not "{case.rig.name}"')
    suspects = suspects_of(meant_by(case))
    seen: dict[str, float] = {}
    for odds, family, units in _faults(told["causes"]):
        near = [one for one in suspects if _explains(one, family, units)]
        for one in near:
            seen[one.id] = seen.get(one.id, 0.0) + BY_AUDIT * odds / len(near)
    return Experience(seen=seen)


def _faults(causes: list[Any]) -> Iterator[tuple[float, Family, frozenset[str]]]:
    try:
        for cause in causes:
            for fault in cause["faults"]:
                yield float(cause["odds"]), Family(fault["family"]), frozenset(fault["on"])
    except (KeyError, TypeError, ValueError):
        raise CannotUse(
            "the causes of this audit cannot be read; audit the capture again, with this thruline"
        ) from None


def _explains(suspect: Suspect, family: Family, units: frozenset[str]) -> bool:
    return suspect.kind in _KINDS[family] and (not units or suspect.on.partition(".")[0] in units)
