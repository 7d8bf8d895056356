"""Presets worked out: composed, played through the rig, composed again where queues need room."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from thruline.base.measures import BYTE_US
from thruline.compose.goals import Wanted, wanted_of
from thruline.compose.jobs import Effort, Job
from thruline.compose.preset import Composed, MakeJob, composed, plan, with_waits
from thruline.compose.stored import stored_sending
from thruline.proof.board import Board
from thruline.proof.finding import Result
from thruline.proof.kept import Kept
from thruline.rig.preset import Preset
from thruline.rig.whole import Rig
from thruline.timing.fate import Fate
from thruline.timing.run import Run, run_all
from thruline.timing.sending import Purpose, Sending

TOO_EARLY = frozenset({Fate.LOST, Fate.CANNOT_TELL})
"""Fates of control changes that came while their unit was loading."""
FULL_UP_TO = 640
"""Presets times units up to which orders are searched with full effort: 32 presets of 20 units."""
MOST_ROUNDS = 8
"""How often an order is made again because messages queued up on the way to a unit."""


@dataclass
class Worked:
    """What was worked out for one preset.

    `results` keeps what preset rules found, `pieces` what else rules have made of it.
    """

    preset: Preset
    composed: Composed | None = None
    run: Run | None = None
    results: dict[str, tuple[Result, ...]] = field(default_factory=dict)
    pieces: dict[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Bench:
    """What presets are worked out with."""

    rig: Rig
    board: Board
    kept: Kept
    effort: Effort
    job: MakeJob


def effort_for(rig: Rig) -> Effort:
    """How long to look for the best order of each preset: as long as nobody has to wait.

    It follows from the rig alone, so that every question about it sees the same order.
    """
    return Effort.FULL if len(rig.presets) * len(rig.units) <= FULL_UP_TO else Effort.QUICK


@dataclass(slots=True)
class _Open:
    """A preset on its way: what it wants, its jobs on an empty rig, and the waits found so far.

    `is_known` tells that no more of them need be looked for.
    """

    worked: Worked
    wanted: tuple[Wanted, ...]
    jobs: tuple[Job, ...]
    key: object
    later: dict[str, int]
    is_known: bool


def work_out(bench: Bench, ones: Sequence[Worked]) -> None:
    """Compose and play presets, all in one go."""
    opened = [_open(bench, one) for one in ones]
    board = bench.board.for_waits if any(not one.is_known for one in opened) else bench.board
    if board is not bench.board:
        _find_waits(replace(bench, rig=board.rig, board=board), opened)
    for one in opened:
        _compose(bench, one)
    _play(bench, opened)
    _make_room(bench, [one for one in opened if not one.is_known])


def _open(bench: Bench, worked: Worked) -> _Open:
    wanted = wanted_of(bench.rig, worked.preset, bench.kept.want)
    board, kept = bench.board, bench.kept
    listed, jobs = plan(wanted, board.sender, travels=board.roads.travels, job=bench.job)
    key = (board.waits_key(kept), board.sender, bench.effort, tuple([id(job) for job in jobs]))
    later = kept.later_for(key)
    is_known = later is not None or worked.preset.stored is not None
    return _Open(worked, listed, jobs, key, dict(later or {}), is_known)


def _find_waits(apart: Bench, ones: Sequence[_Open]) -> None:
    """Find the waits of presets where no unit hears what is sent to another."""
    unknown = [one for one in ones if not one.is_known]
    work_out(apart, [Worked(one.worked.preset) for one in unknown])
    for one in unknown:
        one.later = dict(apart.kept.later_for(one.key) or {})
        one.is_known = True


def _compose(bench: Bench, one: _Open) -> None:
    travels, jobs = bench.board.roads.travels, one.jobs
    if one.later:
        jobs = with_waits(jobs, one.wanted, one.later, travels=travels, job=bench.job)
    ordered = bench.kept.order(jobs, bench.board.sender, bench.effort)
    one.worked.composed = composed(one.wanted, ordered, travels=travels)


def _play(bench: Bench, ones: Sequence[_Open]) -> None:
    runs = run_all(
        bench.board.roads,
        bench.board.listeners,
        sendings=[_sending(bench, one.worked) for one in ones],
        hand=bench.board.hand,
        hears=bench.kept.hear_all,
    )
    for one, run in zip(ones, runs, strict=True):
        one.worked.run = run


def _sending(bench: Bench, one: Worked) -> Sending:
    if one.preset.stored is not None:
        return stored_sending(one.preset.stored, bench.rig.units, bench.board.routing.over)
    return one.composed.sending if one.composed else Sending(())


def _make_room(bench: Bench, ones: Sequence[_Open]) -> None:
    """Where queues on the way made a control change come too early, let it leave later.

    The first time by what a queue can cost at every hop that waits for whole messages (one byte: a
    program change behind a longer message), after that by what was still missing.
    """
    travels = bench.board.roads.travels
    for _ in range(MOST_ROUNDS if bench.board.sender.means.reorder else 0):
        late = [(one, short) for one in ones if (short := _short(one.worked))]
        for one, short in late:
            for unit, missing in short.items():
                usual = travels[unit].whole_hops * BYTE_US if unit not in one.later else 0
                one.later[unit] = one.later.get(unit, 0) + max(missing, usual)
            _compose(bench, one)
        if not late:
            break
        _play(bench, [one for one, _ in late])
    for one in ones:
        bench.kept.note_later(one.key, one.later)


def _short(worked: Worked) -> dict[str, int]:
    return too_early(worked.run) if worked.run is not None else {}


def too_early(run: Run) -> dict[str, int]:
    """Units whose controls came while they were still loading, and by how many us too early.

    A unit that loads twice hears a neighbour's program change as well: no order helps there.
    """
    short: dict[str, int] = {}
    for unit, reception in run.receptions.items():
        if len(reception.loading) != 1 or TOO_EARLY.isdisjoint(reception.fates):
            continue
        for heard, fate in zip(run.heard[unit], reception.fates, strict=True):
            item = run.sending.items[heard.place]
            if item.unit == unit and item.purpose is Purpose.CONTROL and fate in TOO_EARLY:
                missing = max(end for _, end in reception.loading) - heard.arrival.start_us
                if missing > 0:
                    short[unit] = max(short.get(unit, 0), missing)
    return short
