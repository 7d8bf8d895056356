"""The last proof: a constraint solver looks for anything faster.

It is imported only when it is needed, because OR-Tools takes a third of a second to load and may
not be installed. One worker and a limit that counts work, not time, so that the same jobs give the
same answer on every machine.
"""

from dataclasses import dataclass

from ortools.sat.python import cp_model

from thruline.compose.bound import earliest
from thruline.compose.wire import Wire


@dataclass(frozen=True, slots=True)
class Solved:
    """What the solver found."""

    sequence: list[int] | None
    """An order that ends earlier than asked, or None."""
    bound_us: int
    """Nothing ends before this, as far as the solver could tell."""


def solve(wire: Wire, *, below_us: int, floor_us: int, work: float) -> Solved:
    """Look for an order that ends before `below_us`.

    `wire` is that of a controller that can pause at will; `floor_us` is a bound known already;
    `work` is the limit in the solver's own units, about one a second.
    """
    model = _Model(wire, below_us - 1, floor_us)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 0
    solver.parameters.linearization_level = 0
    solver.parameters.max_deterministic_time = work
    status = solver.solve(model.model)
    if status == cp_model.INFEASIBLE:
        return Solved(None, below_us)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Solved(None, floor_us)
    starts = [solver.value(start) for start in model.starts]
    sequence = sorted(range(len(starts)), key=lambda piece: (starts[piece], piece))
    return Solved(sequence, round(solver.best_objective_bound))


class _Model:
    """Starts and ends of all pieces on one wire, and when the last unit is right."""

    def __init__(self, wire: Wire, most: int, floor: int) -> None:
        self.wire = wire
        self.model = cp_model.CpModel()
        self.starts: list[cp_model.IntVar] = []
        self.ends: list[cp_model.IntVar] = []
        self.taken: list[cp_model.IntervalVar] = []
        self.most = most
        self.over = self.model.new_int_var(floor, most, "over")
        for piece, start in enumerate(earliest(wire)):
            self.add_piece(piece, start)
        self.add_held_heads()
        self.model.add_no_overlap(self.taken)
        self.model.minimize(self.over)

    def add_piece(self, piece: int, earliest_start: int) -> None:
        """One piece: on the wire alone, after the piece before it, in time for its job."""
        wire, model = self.wire, self.model
        before = wire.before[piece]
        start = model.new_int_var(0, self.most, f"start {piece}")
        end = model.new_int_var(0, self.most - wire.rest[piece], f"end {piece}")
        model.add(start >= earliest_start)
        model.add(self.over >= end + wire.rest[piece])
        length: cp_model.LinearExprT = wire.full[piece]
        if before >= 0 and wire.least[piece] - wire.idle[piece] < wire.full[piece]:
            length = self.length_kept_or_full(piece, start)
        if before >= 0:
            model.add(start >= self.ends[before] + wire.lag[piece])
        self.taken.append(model.new_interval_var(start, length, end, f"piece {piece}"))
        self.starts.append(start)
        self.ends.append(end)

    def length_kept_or_full(self, piece: int, start: cp_model.IntVar) -> cp_model.LinearExprT:
        """Shorter when nothing comes between the piece and the piece before it."""
        wire, model = self.wire, self.model
        kept = model.new_bool_var(f"kept {piece}")
        before_end = self.ends[wire.before[piece]]
        if wire.lag[piece]:
            idle = model.new_int_var(0, self.most, f"idle {piece}")
            self.taken.append(
                model.new_optional_interval_var(before_end, idle, start, kept, f"between {piece}")
            )
        else:
            model.add(start == before_end).only_enforce_if(kept)
        return wire.full[piece] - (wire.full[piece] - wire.kept[piece]) * kept

    def add_held_heads(self) -> None:
        """Where all heads leave first: they do, in the order of the jobs."""
        if not self.wire.means.programs_first:
            return
        clock = 0
        for piece, block in enumerate(self.wire.block):
            if block < 0:
                self.model.add(self.starts[piece] == clock)
                clock += self.wire.full[piece]
