"""Which cables to make? Answered for a rig, as an edit of its document and a list to cut by."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from thruline.app.frame import Json
from thruline.app.load import Opened
from thruline.app.planned import Change, Tried, tried_json, try_changes
from thruline.base.address import at
from thruline.base.edit import add_to, set_to
from thruline.papers.paper import Section, table_of
from thruline.plan.cable_kinds import ENDS, KINDS, SAW, CableKind
from thruline.plan.cables import CablePlan, Wish, plan_cables
from thruline.plan.cutting import Cutting, cut
from thruline.plan.wiring import contact_rows
from thruline.rig.cable import Jack

CAUTION = (
    "Test every cable for continuity and for shorts between contacts before it is used. Power "
    "leads: measure plus and minus at the plug before a unit is connected. Mains leads are not "
    "made or altered here: local codes and licensed practice come first."
)
SPOOL = 5000
"""What a spool holds when nothing else is said, mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """What there is to cut from, by the name of the kind of cable: a spool in mm, and rests."""

    spools: Mapping[str, int]
    rests: Mapping[str, tuple[int, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutKind:
    """The cutting list of one kind of cable; `cables` are those to make, in the order of sizes."""

    kind: CableKind
    spool: int
    cables: tuple[CablePlan, ...]
    cutting: Cutting


@dataclass(frozen=True, kw_only=True)  # without slots: what is tried is kept
class CableSet:
    """All cables of a rig, and how to cut those that are to be made."""

    opened: Opened
    cables: tuple[CablePlan, ...]
    cuts: tuple[CutKind, ...]

    @cached_property
    def tried(self) -> Tried:
        """The document with the plan made. Raises CannotUse when it cannot be."""
        return try_changes(self.opened, _changes(self.cables))

    @property
    def unknown(self) -> tuple[CablePlan, ...]:
        """Cables whose length cannot be told."""
        return tuple(one for one in self.cables if one.length is None)

    @property
    def is_whole(self) -> bool:
        """Whether every cable has its length, and every piece a spool."""
        return not self.unknown and not any(one.cutting.too_long for one in self.cuts)

    @property
    def says(self) -> str:
        """The outcome in one sentence."""
        made = [one for one in self.cables if one.is_made]
        metres = sum(one.length or 0 for one in made) / 1000
        parts = [f"{len(self.cables)} cables"]
        parts.append(f"{len(made)} to make, {metres:.1f} m in all" if made else "none to make")
        if self.unknown:
            parts.append(f"the length of {len(self.unknown)} cannot be told")
        return "; ".join(parts)


def plan_rig_cables(opened: Opened, wish: Wish, stock: Stock) -> CableSet:
    """The way, the length, the ends and the wiring of every cable."""
    cables = plan_cables(opened.rig, wish)
    return CableSet(
        opened=opened,
        cables=cables,
        cuts=() if wish.sold else tuple(_cuts(cables, stock)),
    )


def _cuts(cables: Sequence[CablePlan], stock: Stock) -> Iterator[CutKind]:
    for kind in KINDS:
        made = tuple(one for one in cables if one.is_made and one.kind is kind)
        if made and kind.name != "USB":
            spool = stock.spools.get(kind.name, SPOOL)
            sizes = [(one.length or 0) + ENDS + SAW for one in made]
            rests = stock.rests.get(kind.name, ())
            yield CutKind(kind=kind, spool=spool, cables=made, cutting=cut(sizes, spool, rests))


def _changes(cables: Sequence[CablePlan]) -> Iterator[Change]:
    for one in cables:
        why = f"{one.number}: {'; '.join((_what(one), *one.says))}"
        if one.is_added:
            yield add_to(at("cable"), _new_cable(one)), why
            continue
        address = one.was.address
        if one.cable.plugs != one.was.plugs:
            yield set_to(address.child("ends"), "/".join(one.cable.plugs)), why
        if one.cable.wiring != one.was.wiring:
            yield set_to(address.child("wiring"), one.cable.wiring), why
        if one.length is not None and one.length != one.was.length:
            yield set_to(address.child("length"), one.length), why


def _new_cable(one: CablePlan) -> dict[str, str | int]:
    cable = one.cable
    written: dict[str, str | int] = {
        "from": str(cable.start),
        "to": str(cable.stop),
        "ends": "/".join(cable.plugs),
    }
    return written if one.length is None else {**written, "length": one.length}


def place_words(found: CableSet, jack: Jack) -> str:
    """A socket as people find it: the unit, and what is printed beside the socket."""
    unit = found.opened.rig.units[jack.unit]
    return f"{unit.name} {unit.chart.sockets[jack.socket].marked or jack.socket}"


def cable_sections(
    found: CableSet, *, with_contacts: bool = True, every: bool = False
) -> Iterator[Section]:
    """The list of cables, how to cut, how to wire, cautions.

    Contacts are those of the cables to make; with `every` also of those that stay as they are.
    """
    rows = [
        (
            one.number,
            place_words(found, one.cable.start),
            place_words(found, one.cable.stop),
            " / ".join(one.ends),
            "?" if one.runs is None else str(one.runs),
            "?" if one.length is None else str(one.length),
            "; ".join((_what(one), *one.says)),
        )
        for one in found.cables
    ]
    yield Section(
        title="Cables",
        table=table_of(("no", "from", "to", "ends", "way", "length", ""), rows),
        notes=("Way and length in mm. Left and right are those of whoever looks at the socket.",),
    )
    for one in found.cuts:
        yield _cutting_section(one)
    if with_contacts:
        yield from _contact_sections(found, every=every)
    yield Section(title="Cautions", says=(CAUTION,))


def _what(one: CablePlan) -> str:
    if one.is_made:
        return "to make"
    return "is missing" if one.is_added else "stays"


def _cutting_section(one: CutKind) -> Section:
    rows = []
    for number, each in enumerate(one.cutting.cuts, 1):
        pieces = [one.cables[at] for at in each.pieces]
        cells = ", ".join(f"{cable.number} {cable.length}" for cable in pieces)
        stock = f"rest of {each.stock}" if each.is_rest else f"spool of {each.stock}"
        rows.append((str(number), stock, cells, str(each.left)))
    return Section(
        title=f"To cut: {one.kind.name} ({one.kind.wire})",
        table=table_of(("", "from", "cables and their lengths", "left"), rows),
        notes=tuple(_cutting_notes(one)),
    )


def _cutting_notes(one: CutKind) -> Iterator[str]:
    yield f"All in mm; each piece is cut {ENDS} longer than its cable, and a cut takes {SAW}."
    cutting = one.cutting
    if cutting.spools and cutting.is_best:
        yield f"Proved: {_spools(cutting.spools)} cannot be done with fewer."
    elif cutting.spools:
        yield f"{_spools(cutting.spools)}; fewer than {cutting.bound} is not possible."
    for piece in cutting.too_long:
        yield f"{one.cables[piece].number} has room on no spool or rest: take a longer one."


def _spools(count: int) -> str:
    return "one spool" if count == 1 else f"{count} spools"


def _contact_sections(found: CableSet, *, every: bool) -> Iterator[Section]:
    """Contact tables; cables that are wired alike share one."""
    alike: dict[tuple[tuple[str, str, str], ...], list[CablePlan]] = {}
    for one in found.cables:
        if (one.is_made or every) and one.kind.name != "USB":
            rows = tuple(contact_rows(found.opened.rig, one.cable))
            alike.setdefault((*rows, ("", *one.cable.plugs)), []).append(one)
    for key, those in alike.items():
        first, second = those[0].cable.plugs
        numbers = ", ".join(one.number for one in those)
        yield Section(
            title=f"Wiring: {numbers}",
            table=table_of((f"{first} (from)", f"{second} (to)", "carries"), key[:-1]),
        )


def cables_json(found: CableSet) -> Json:
    """The plan for other programs."""
    return {
        "says": found.says,
        "cables": [_cable_json(found, one) for one in found.cables],
        "cutting": [
            {
                "kind": one.kind.name,
                "spool": one.spool,
                "spools": one.cutting.spools,
                "bound": one.cutting.bound,
                "proved": one.cutting.is_best,
                "cuts": [
                    {
                        "stock": each.stock,
                        "is_rest": each.is_rest,
                        "cables": [one.cables[at].number for at in each.pieces],
                        "left": each.left,
                    }
                    for each in one.cutting.cuts
                ],
                "too_long": [one.cables[at].number for at in one.cutting.too_long],
            }
            for one in found.cuts
        ],
        "cautions": [CAUTION],
        **tried_json(found.tried),
    }


def _cable_json(found: CableSet, one: CablePlan) -> Json:
    return {
        "number": one.number,
        "kind": one.kind.name,
        "from": str(one.cable.start),
        "to": str(one.cable.stop),
        "ends": list(one.ends),
        "wiring": one.cable.wiring,
        "way": [[round(point.x), round(point.y)] for point in one.way],
        "runs": one.runs,
        "length": one.length,
        "make": one.is_made,
        "says": list(one.says),
        "contacts": [list(row) for row in contact_rows(found.opened.rig, one.cable)],
    }
