"""An order with a small weighted sum that still ends in time: where the search for one starts."""

from math import inf

from thruline.compose.bound import Piece, preemptive
from thruline.compose.stretches import in_stretches
from thruline.compose.wire import NOTHING, Wire

_IDLE = 3
"""How many times worse an idle wire is than a busy one, when weighing what to send next: found by
trying 1 to 5 on random presets."""


def heavy_first(wire: Wire, sequence: list[int], *, until_us: int) -> list[int] | None:
    """An order of the stretches of the sequence in which all is right by `until_us`.

    At each step the job with the most weight for the wire time that it still needs (W. E. Smith,
    1956), unless Jackson's bound says that the rest would come too late. None when that leads
    into a dead end. For a controller that can pause at will.
    """
    stretches, _ = in_stretches(wire, sequence)
    filling = _Filling(stretches.wire, until_us)
    while len(filling.order) < len(stretches.wire.job):
        if not filling.add_one():
            return None
    return stretches.apart(filling.order)


class _Filling:
    """A sending under way."""

    def __init__(self, wire: Wire, until: int) -> None:
        self.wire = wire
        self.until = until
        self.order: list[int] = []
        self.clock = 0
        self.status = NOTHING
        self.ends = [0] * (len(wire.job) + 1)
        spans = list(zip(wire.first, wire.first[1:], strict=False))
        self.next = [first if first < end else -1 for first, end in spans]
        """By job: its next piece, -1 when there is none."""
        self.left = [sum(wire.least[first:end]) for first, end in spans]
        self.weight = [sum(wire.weight[first:end]) for first, end in spans]

    def add_one(self) -> bool:
        """Send one piece more; False when every piece would make the rest too late."""
        wire = self.wire
        starts = [(self.start(piece), piece) for piece in self.next if piece >= 0]
        if wire.means.programs_first and any(wire.block[piece] < 0 for _, piece in starts):
            starts = [one for one in starts if wire.block[one[1]] < 0][:1]
        soonest = min(start + wire.least[piece] for start, piece in starts)
        starts = [one for one in starts if one[0] < soonest]
        for start, piece in sorted(starts, key=self.slowness):
            same = wire.status[piece] == self.status
            end = start + (wire.kept[piece] if same else wire.full[piece])
            if end + wire.rest[piece] <= self.until and self.rest_fits(piece, end):
                self.send(piece, end)
                return True
        return False

    def start(self, piece: int) -> int:
        """When a next piece could start."""
        return max(self.clock, self.ends[self.wire.before[piece]] + self.wire.lag[piece])

    def slowness(self, start: tuple[int, int]) -> float:
        """Wire time for weight: the less the sooner."""
        job = self.wire.job[start[1]]
        weight = self.weight[job]
        wanted = self.left[job] + _IDLE * (start[0] - self.clock)
        return wanted / weight if weight else inf

    def rest_fits(self, piece: int, end: int) -> bool:
        """Whether all else can still be in time, as far as the bound can tell."""
        wire = self.wire
        pieces: list[Piece] = []
        for following in self.next:
            coming, ready = following, self.ends[wire.before[following]]
            if following == piece:
                coming, ready = wire.after[piece], end
            while coming >= 0:
                ready = max(end, ready + wire.lag[coming] - wire.idle[coming])
                pieces.append((ready, -wire.rest[coming], wire.least[coming]))
                ready += wire.least[coming]
                coming = wire.after[coming]
        return preemptive(pieces) <= self.until

    def send(self, piece: int, end: int) -> None:
        """Send a piece that ends then."""
        job = self.wire.job[piece]
        self.clock, self.status, self.ends[piece] = end, self.wire.status[piece], end
        self.left[job] -= self.wire.least[piece]
        self.next[job] = self.wire.after[piece]
        self.order.append(piece)
