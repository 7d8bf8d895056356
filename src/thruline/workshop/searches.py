"""Searches for a fault as the workshop keeps them, and what they say about the next one."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Protocol

from thruline.find.experience import Experience
from thruline.find.search import Search, Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptSearch:
    """One search: on which rig, how it stands or ended, what was done, and what it taught.

    `culprits` are what was mended, by the id of the suspect, each with how sure that was;
    `expected` are the shares of the kinds of fault before anyone looked. `told` is the record in
    sentences, `seconds` what its checks cost. `number` and `at` (ISO 8601) are the store's.
    """

    rig: str
    verdict: Verdict
    search: Search
    seconds: float
    told: tuple[str, ...]
    culprits: Mapping[str, float]
    expected: Mapping[str, float]
    number: int = 0
    at: str = ""


class Searches(Protocol):
    """Where searches are kept for good."""

    def keep(self, kept: KeptSearch, *, instead_of: int = 0) -> int:
        """Keep a search, in place of one of this number if it goes on from there; its number."""
        ...

    def listed(self) -> tuple[KeptSearch, ...]:
        """All searches on all rigs, the last first."""
        ...


def goes_on_from(listed: Iterable[KeptSearch], rig: str, search: Search) -> int:
    """The number of the kept search that this one goes on from; 0 where it is a new one."""
    for one in listed:
        steps = one.search.steps
        if one.rig == rig and steps and search.steps[: len(steps)] == steps:
            return one.number
    return 0


def experience_from(listed: Iterable[KeptSearch], rig: str) -> Experience:
    """What the searches that ended well say about the odds of the next one on this rig.

    Kinds of fault are counted on all rigs, things of a board on this rig alone.
    """
    seen: dict[str, float] = {}
    expected: dict[str, float] = {}
    for one in listed:
        if one.verdict is not Verdict.WORKS or not one.culprits:
            continue
        for thing, sure in one.culprits.items():
            kind = thing.partition("@")[0]
            seen[kind] = seen.get(kind, 0.0) + sure
            if one.rig == rig:
                seen[thing] = seen.get(thing, 0.0) + sure
        known = sum(one.culprits.values())
        for kind, share in one.expected.items():
            expected[kind] = expected.get(kind, 0.0) + share * known
    return Experience(seen=seen, expected=expected)
