"""Blocks that stay together, taken as one piece, so that a search moves them in one go."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate

from thruline.compose.wire import Wire


@dataclass(frozen=True, slots=True)
class Stretches:
    """A wire whose pieces are stretches of another's: blocks of one run, sent without a break."""

    wire: Wire
    begins: list[int]
    """The first piece of each stretch; one entry more at the end."""

    def apart(self, sequence: Iterable[int]) -> list[int]:
        """A sequence of stretches as one of pieces."""
        begins = self.begins
        return [piece for one in sequence for piece in range(begins[one], begins[one + 1])]


def in_stretches(wire: Wire, sequence: Sequence[int]) -> tuple[Stretches, list[int]]:
    """What goes on without a break in the sequence, as stretches; and the sequence of them."""
    behind = dict(zip(sequence[1:], sequence, strict=False))
    begins = [
        piece
        for piece, joined in enumerate(wire.joined)
        if not joined or behind.get(piece) != piece - 1
    ]
    number = {piece: one for one, piece in enumerate(begins)}
    begins.append(len(wire.job))
    return (
        Stretches(_joined(wire, begins), begins),
        [number[piece] for piece in sequence if piece in number],
    )


def _joined(wire: Wire, begins: list[int]) -> Wire:
    """The wire whose pieces begin at these."""
    firsts, lasts = begins[:-1], [piece - 1 for piece in begins[1:]]
    number = {piece: one for one, piece in enumerate(begins)}
    more = [sum(wire.kept[first + 1 : last + 1]) for first, last in zip(firsts, lasts, strict=True)]

    def at(values: list[int], pieces: list[int]) -> list[int]:
        return [values[piece] for piece in pieces]

    def longer(values: list[int]) -> list[int]:
        return [values[first] + us for first, us in zip(firsts, more, strict=True)]

    return Wire(
        means=wire.means,
        waits=wire.waits,
        first=[number[piece] for piece in wire.first],
        job=at(wire.job, firsts),
        block=at(wire.block, firsts),
        before=[one - 1 if wire.before[piece] >= 0 else -1 for one, piece in enumerate(firsts)],
        after=[one + 1 if wire.after[piece] >= 0 else -1 for one, piece in enumerate(lasts)],
        root=[number[piece] for piece in at(wire.root, firsts)],
        joined=[wire.joined[piece] for piece in firsts],
        full=longer(wire.full),
        kept=longer(wire.kept),
        least=longer(wire.least),
        status=at(wire.status, firsts),
        lag=at(wire.lag, firsts),
        idle=at(wire.idle, firsts),
        deaf=at(wire.deaf, firsts),
        rest=at(wire.rest, lasts),
        tail=at(wire.tail, lasts),
        load=at(wire.load, lasts),
        weight=at(wire.weight, lasts),
        inside=[_inside(wire, first, last) for first, last in zip(firsts, lasts, strict=True)],
    )


def _inside(wire: Wire, first: int, last: int) -> list[int]:
    """How long before the end of the last each block but the first starts."""
    return list(accumulate(wire.kept[piece] for piece in range(last, first, -1)))
