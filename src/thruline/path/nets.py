"""Contacts that are joined: which ends of wires are electrically one.

A way through plugs, cables and adapters is a row of places, each with contacts; a joint says which
contacts of one place touch which of the next. Two contacts of one place can be joined too, by what
lies behind them: a mono plug joins ring and sleeve of the socket it is in.
"""

from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

from thruline.rig.socket import CONTACTS

Point: TypeAlias = tuple[int, str]
"""A contact at a place; places count from 0 at the start of the way."""

Pairs: TypeAlias = tuple[tuple[str, str], ...]
"""Contacts here, joined with contacts there."""


@dataclass(frozen=True, slots=True)
class Joint:
    """Contacts of one place joined with contacts of the next, and what joins them, in words."""

    pairs: Pairs
    what: str


@dataclass(frozen=True, slots=True)
class Nets:
    """For each point that is joined with another: the point that stands for its net."""

    known: dict[Point, Point]

    def of(self, point: Point) -> Point:
        """The net of a point; a point that touches nothing is a net of its own."""
        return self.known.get(point, point)


@lru_cache(maxsize=1024)
def nets(joints: tuple[Pairs, ...]) -> Nets:
    """The nets that joints make, one behind the other."""
    known: dict[Point, Point] = {}
    members: dict[Point, list[Point]] = {}
    for place, pairs in enumerate(joints):
        for here, there in pairs:
            near, far = (place, here), (place + 1, there)
            kept, gone = known.setdefault(near, near), known.setdefault(far, far)
            if kept != gone:
                moved = members.pop(gone, [gone])
                members.setdefault(kept, [kept]).extend(moved)
                known.update(dict.fromkeys(moved, kept))
    return Nets(known)


def culprit(joints: tuple[Joint, ...], first: Point, second: Point) -> str | None:
    """What joins two contacts of one end of the way, in words; None when nothing does.

    Walking away from that end, it is the joint with which the two become one.
    """
    order = range(len(joints)) if first[0] == 0 else range(len(joints) - 1, -1, -1)
    passed: list[Pairs] = [()] * len(joints)
    for index in order:
        passed[index] = joints[index].pairs
        so_far = nets(tuple(passed))
        if so_far.of(first) == so_far.of(second):
            return joints[index].what
    return None


@lru_cache(maxsize=256)
def touches(plug: str, connector: str) -> Pairs:
    """Which contacts of a plug touch which of the socket that it is in.

    Where a jack plug and its socket differ, the ring of one lies on the sleeve of the other.
    """
    here, there = CONTACTS[plug], CONTACTS[connector]
    pairs = [(contact, contact) for contact in here if contact in there]
    if "ring" in here and "sleeve" in there and "ring" not in there:
        pairs.append(("ring", "sleeve"))
    if "ring" in there and "sleeve" in here and "ring" not in here:
        pairs.append(("sleeve", "ring"))
    return tuple(pairs)


def turned(pairs: Pairs) -> Pairs:
    """The same joint, seen from its other side."""
    return tuple((there, here) for here, there in pairs)
