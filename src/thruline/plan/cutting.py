"""Pieces of cable cut from spools with the fewest spools begun, and how few it could be at best.

One way takes the longest piece that is left and fills the rest of its spool as full as any choice
of pieces can (all sums that can be reached, as the bits of one number). That meets the bound nearly
always when pieces are short against a spool. Long ones are cut better when each spool may lose a
little, so that short pieces are left for the end: such ways are tried while the bound is not met.
Last, spools are taken apart and cut anew together, so that what is left over gathers on one.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from thruline.plan.cutting_bound import sharper_bound

WASTES = (*range(2, 42, 2), *range(45, 200, 5))
"""What may be left on each spool, mm, tried one after the other while the bound is not met."""

TURNS = 100
"""Pieces with which the choice of what goes together begins, after that."""

GATHERED = 6
"""How many of the first ways are cut anew with what is left over gathered on one spool."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """What is cut from one spool or rest, by the numbers of the pieces."""

    stock: int
    is_rest: bool
    pieces: tuple[int, ...]
    left: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutting:
    """All cuts. `spools` new ones are begun, and no way of cutting needs fewer than `bound`.

    `too_long` are pieces that no spool holds, and for which no room was found on the rests.
    """

    cuts: tuple[Cut, ...]
    spools: int
    bound: int
    too_long: tuple[int, ...]

    @property
    def is_best(self) -> bool:
        """Whether it is proved that no fewer spools will do."""
        return self.spools <= self.bound


def cut(sizes: Sequence[int], spool: int, rests: Sequence[int] = ()) -> Cutting:
    """Cut pieces of these sizes (with what each loses in making) from rests, then new spools."""
    longest = max((spool, *rests))
    fits = [at for at, size in enumerate(sizes) if size <= longest]
    whole = [at for at in fits if sizes[at] <= spool]
    bound = least_spools([sizes[at] for at in whole], spool, rests)
    best: list[Cut] = []
    tried: list[Cut] = []
    pieces = _with_room(sizes, fits, spool=spool, rests=rests)
    for turn, way in enumerate(_ways(sizes, pieces, spool=spool, rests=rests)):
        tried += way or ()
        while turn < GATHERED and way and _spools(way) > bound:
            fewer = _gathered(sizes, way, spool=spool)
            if fewer is None:
                break
            way = fewer  # noqa: PLW2901 - the same way, made better
        if way is not None and (not best or _spools(way) < _spools(best)):
            best = way
            if _spools(best) <= bound:
                break
    if bound < _spools(best) and not rests:
        bound = sharper_bound(
            [sizes[at] for at in whole],
            spool,
            patterns=[[sizes[at] for at in one.pieces] for one in tried],
            enough=_spools(best),
            known=bound,
        )
    done = {at for one in best for at in one.pieces}
    return Cutting(
        cuts=tuple(best),
        spools=_spools(best),
        bound=bound,
        too_long=tuple(at for at in range(len(sizes)) if at not in done),
    )


def _with_room(
    sizes: Sequence[int], fits: Sequence[int], *, spool: int, rests: Sequence[int]
) -> list[int]:
    """The pieces without the longest, one after the other, until all that are left can be cut.

    Only pieces longer than a spool can be in each other's way: there are no more rests than given.
    """
    pieces = sorted(fits, key=lambda at: sizes[at])
    while pieces and sizes[pieces[-1]] > spool:
        if any(way is not None for way in _ways(sizes, pieces, spool=spool, rests=rests)):
            break
        pieces.pop()
    return sorted(pieces)


def _ways(
    sizes: Sequence[int], pieces: Sequence[int], *, spool: int, rests: Sequence[int]
) -> Iterator[list[Cut] | None]:
    """Ways of cutting, the best guess first; None for one that does not get all pieces cut."""
    yield _filled(sizes, pieces, spool=spool, rests=rests)
    if any(sizes[at] > spool for at in pieces):
        yield _long_first(sizes, pieces, spool=spool, rests=rests)
    yield _first_fit(sizes, pieces, spool=spool, rests=rests)
    for waste in WASTES:
        yield _filled(sizes, pieces, spool=spool, rests=rests, waste=waste)
    for turn in range(1, min(TURNS, len(pieces))):
        yield _filled(sizes, pieces, spool=spool, rests=rests, turn=turn)


def _spools(cuts: Sequence[Cut]) -> int:
    """New spools that are begun."""
    return sum(not one.is_rest for one in cuts)


def least_spools(sizes: Sequence[int], spool: int, rests: Sequence[int] = ()) -> int:
    """A number of new spools that no way of cutting is below.

    All of the length has to come from somewhere; and a rest no longer than a spool saves one spool
    at most.
    """
    by_length = -(-max(0, sum(sizes) - sum(rests)) // spool)
    if any(one > spool for one in rests):
        return by_length
    return max(by_length, _least_without_rests(sizes, spool) - len(rests))


def _least_without_rests(sizes: Sequence[int], spool: int) -> int:
    """For each length that a short piece may have (Martello and Toth's bound for packing).

    Pieces longer than half a spool never share one, and those so long that no such short piece
    fits beside them leave their rest empty; what the others leave must hold the short ones, or
    further spools do.
    """
    best = 0
    for short in {0, *(one for one in sizes if one * 2 <= spool)}:
        alone = sum(one > spool - short for one in sizes)
        half = [one for one in sizes if one * 2 > spool and one <= spool - short]
        small = sum(one for one in sizes if short <= one and one * 2 <= spool)
        over = small - (len(half) * spool - sum(half))
        best = max(best, alone + len(half) + max(0, -(-over // spool)))
    return best


def _filled(
    sizes: Sequence[int],
    pieces: Sequence[int],
    *,
    spool: int,
    rests: Sequence[int],
    waste: int = 0,
    turn: int = 0,
) -> list[Cut] | None:
    """Stock after stock filled as full as can be, each new spool with the longest piece left.

    With a little `waste` allowed on each, short pieces are kept for where they are needed. `turn`
    says at which piece, counted from the longest, the choice of what goes beside it begins.
    """
    left = sorted(pieces, key=lambda at: -sizes[at])
    cuts = []
    for stock in sorted(rests):
        chosen = _fullest(sizes, [at for at in left if sizes[at] <= stock], stock)
        if chosen:
            left = [at for at in left if at not in chosen]
            cuts.append(_cut(sizes, chosen, stock=stock, is_rest=True))
    while left:
        first, others = left[0], left[1:]
        if sizes[first] > spool:
            return None
        after = turn % max(1, len(others))
        beside = others[after:] + others[:after]
        chosen = [first, *_fullest(sizes, beside, spool - sizes[first], waste)]
        left = [at for at in left if at not in chosen]
        cuts.append(_cut(sizes, chosen, stock=spool, is_rest=False))
    return cuts


def _long_first(
    sizes: Sequence[int], pieces: Sequence[int], *, spool: int, rests: Sequence[int]
) -> list[Cut] | None:
    """Rests filled with pieces that no spool holds; what then has room on them comes after."""
    long = [at for at in pieces if sizes[at] > spool]
    cuts = []
    for stock in sorted(rests):
        chosen = _fullest(sizes, sorted(long, key=lambda at: -sizes[at]), stock)
        long = [at for at in long if at not in chosen]
        cuts.append(_cut(sizes, chosen, stock=stock, is_rest=True))
    if long:
        return None
    left = sorted((at for at in pieces if sizes[at] <= spool), key=lambda at: -sizes[at])
    for place, one in enumerate(cuts):
        beside = _fullest(sizes, left, one.left)
        left = [at for at in left if at not in beside]
        cuts[place] = _cut(sizes, [*one.pieces, *beside], stock=one.stock, is_rest=True)
    others = _filled(sizes, left, spool=spool, rests=()) or []
    return [*(one for one in cuts if one.pieces), *others]


def _fullest(sizes: Sequence[int], pieces: Sequence[int], room: int, waste: int = 0) -> list[int]:
    """Pieces that fill the room, within `waste` of as full as can be; those that come first win.

    Bit n of a number says that a length of n can be reached with the pieces from there on.
    """
    mask = (1 << (room + 1)) - 1
    onward = [1]
    for at in reversed(pieces):
        onward.append((onward[-1] | onward[-1] << sizes[at]) & mask)
    onward.reverse()
    most = onward[0].bit_length() - 1
    least, chosen = max(0, most - waste), []
    for step, at in enumerate(pieces):
        size = sizes[at]
        within = onward[step + 1] & ((1 << max(0, most - size + 1)) - 1)
        if size <= most and within >> max(0, least - size):
            chosen.append(at)
            most, least = most - size, max(0, least - size)
    return chosen


def _gathered(sizes: Sequence[int], cuts: Sequence[Cut], *, spool: int) -> list[Cut] | None:
    """The same pieces from a spool less; None when that is not found.

    The two spools with most left over are taken apart, and every other one is cut anew, as full as
    can be, from its own pieces and those. So what is not used gathers in one place, and once the
    loose pieces fit on one spool, a spool is saved. Each time round the choice begins elsewhere.
    """
    by_left = sorted((one for one in cuts if not one.is_rest), key=lambda one: -one.left)
    if len(by_left) < 2:
        return None
    kept = [one for one in cuts if one not in by_left[:2]]
    loose = [at for one in by_left[:2] for at in one.pieces]
    for turn in range(TURNS):
        for place, one in enumerate(kept):
            pool = sorted([*one.pieces, *loose], key=lambda at: -sizes[at])
            after = turn % len(pool)
            chosen = _fullest(sizes, pool[after:] + pool[:after], one.stock)
            loose = [at for at in pool if at not in chosen]
            kept[place] = _cut(sizes, chosen, stock=one.stock, is_rest=one.is_rest)
            if sum(sizes[at] for at in loose) <= spool:
                return [*kept, _cut(sizes, loose, stock=spool, is_rest=False)]
    return None


def _first_fit(
    sizes: Sequence[int], pieces: Sequence[int], *, spool: int, rests: Sequence[int]
) -> list[Cut] | None:
    """Each piece, the longest first, from the first stock that has room for it."""
    stocks = [(one, True) for one in sorted(rests)]
    rooms = [stock for stock, _ in stocks]
    held: list[list[int]] = [[] for _ in stocks]
    for at in sorted(pieces, key=lambda one: -sizes[one]):
        place = next((n for n, room in enumerate(rooms) if room >= sizes[at]), None)
        if place is None:
            if sizes[at] > spool:
                return None
            stocks.append((spool, False))
            rooms.append(spool)
            held.append([])
            place = len(rooms) - 1
        rooms[place] -= sizes[at]
        held[place].append(at)
    return [
        _cut(sizes, those, stock=stock, is_rest=is_rest)
        for (stock, is_rest), those in zip(stocks, held, strict=True)
        if those
    ]


def _cut(sizes: Sequence[int], chosen: Sequence[int], *, stock: int, is_rest: bool) -> Cut:
    return Cut(
        stock=stock,
        is_rest=is_rest,
        pieces=tuple(sorted(chosen)),
        left=stock - sum(sizes[at] for at in chosen),
    )
