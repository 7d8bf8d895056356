"""Two people at one place: edits made on a state that somebody else has changed meanwhile.

An edit names its place by what stands there, so edits of different places go together. Only where
the value that an edit replaces is no longer the one its author saw is there anything to ask about.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from thruline.base.address import Address
from thruline.base.edit import Edit, EditKind
from thruline.base.errors import CannotUse
from thruline.document.naming import trail_of
from thruline.document.plain import at_trail, is_there, same


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """A place, what the author of an edit saw there, what is there now, and what was wanted.

    None where there was, is, or shall be nothing.
    """

    address: str
    seen: object
    now: object
    wanted: object


class Clashing(CannotUse):
    """Edits that would overwrite what their author has not seen; nothing was changed."""

    def __init__(self, clashes: Sequence[Clash]) -> None:
        first = clashes[0]
        super().__init__(
            f"{first.address} was changed meanwhile, to {shown(first.now)}; "
            f"you saw {shown(first.seen)} and want {shown(first.wanted)}. Choose one of them"
        )
        self.clashes = tuple(clashes)


def clashes_of(
    seen: Mapping[str, Any], now: Mapping[str, Any], edits: Sequence[Edit]
) -> tuple[Clash, ...]:
    """Where edits made on `seen` would overwrite something else in `now`."""
    found = []
    for edit in edits:
        before, after = value_at(seen, edit.address), value_at(now, edit.address)
        wanted = edit.value
        if edit.kind is EditKind.ADD or _alike(before, after) or _alike(after, wanted):
            continue
        found.append(Clash(address=str(edit.address), seen=before, now=after, wanted=wanted))
    return tuple(found)


def shown(value: object) -> str:
    """A value in a sentence."""
    match value:
        case None:
            return "nothing"
        case str():
            return f'"{value}"'
        case Mapping():
            return ", ".join(f"{key} {shown(inner)}" for key, inner in value.items())
        case _:
            return str(value)


def value_at(data: Mapping[str, Any], address: Address) -> object:
    """What stands at an address; None when nothing does."""
    try:
        trail = trail_of(data, address)
    except CannotUse:
        return None
    return at_trail(data, trail) if is_there(data, trail) else None


def _alike(one: object, other: object) -> bool:
    return same(one, other) if one is not None and other is not None else one is other
