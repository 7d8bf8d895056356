"""What the messages of a preset do to each column, read from its run."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from thruline.rig.preset import Preset
from thruline.sameness.codes import IN, KEEPS, OUT, UNTOLD, Codes, Truths, own_code, seen
from thruline.sameness.columns import Layout, UnitColumns
from thruline.sameness.doubts import CONTROL_CHANGE, IN_DOUBT, PROGRAM_CHANGE, doubts_of
from thruline.timing.fate import Fate
from thruline.timing.receive import Reception
from thruline.timing.run import Run


@dataclass(frozen=True, slots=True, eq=False)
class Rows:
    """Presets x columns: what is done (codes), and whether the earlier value is asked for."""

    effects: Codes
    asks: Truths


@dataclass(frozen=True, slots=True)
class _Found:
    """What single receptions say beyond programs: places in the table, row by row, and codes."""

    spots: list[int]
    codes: list[int]
    asked: list[int]


@dataclass(frozen=True, slots=True)
class Earlier:
    """Rows that were read before, of other runs of the same presets."""

    rows: Rows
    runs: Sequence[Run]


def read_rows(
    layout: Layout,
    presets: Sequence[Preset],
    runs: Sequence[Run],
    *,
    earlier: Earlier | None = None,
) -> Rows:
    """One row a preset. What units made of the same things `earlier` is taken over."""
    count, width = len(runs), len(layout.columns)
    loaded = np.full((count, len(layout.units) + 1), KEEPS, np.int32)
    same = np.zeros(loaded.shape, np.bool_)
    found = _Found([], [], [])
    for row, (preset, run) in enumerate(zip(presets, runs, strict=True)):
        first = row * width
        known = earlier.runs[row].receptions if earlier else {}
        for place, unit in enumerate(layout.units):
            reception = run.receptions.get(unit.id)
            if reception is None:
                continue
            if reception is known.get(unit.id):
                same[row, place] = True
                continue
            if reception.program is not None:
                loaded[row, place] = own_code(reception.program)
            if reception.values or reception.before_program:
                _read_values(unit, reception, first, found=found)
            if unit.banks or not IN_DOUBT.isdisjoint(reception.fates):
                _read_messages(unit, reception, run, found=found, first=first)
        for column, code in loops_in(layout, preset):
            found.spots.append(first + column)
            found.codes.append(code)
    rows = _filled(layout, loaded, found)
    return _joined(layout, rows, earlier.rows, same=same) if earlier else rows


def _joined(layout: Layout, rows: Rows, earlier: Rows, *, same: Truths) -> Rows:
    """Columns of units that are the `same` (rows x units) as they were; relay loops always anew."""
    as_before = same[:, layout.unit_of]
    as_before[:, list(layout.loops.values())] = False
    return Rows(
        effects=np.where(as_before, earlier.effects, rows.effects),
        asks=np.where(as_before, earlier.asks, rows.asks),
    )


def loops_in(layout: Layout, preset: Preset) -> Iterator[tuple[int, int]]:
    """The controller's own relay loops that a preset puts in or out: column and code."""
    for goal in preset.goals:
        if goal.in_loop is not None and goal.unit in layout.loops:
            yield layout.loops[goal.unit], IN if goal.in_loop else OUT


def _read_values(unit: UnitColumns, reception: Reception, first: int, *, found: _Found) -> None:
    """Controls that were set. What was set before a program stays where no program touches it."""
    controls, coarse = unit.controls, unit.coarse
    values = reception.values
    if reception.before_program:
        known = unit.chart.controls
        kept = {
            name: value
            for name, value in reception.before_program.items()
            if known[name].stored is False
        }
        values = {**kept, **values}
    for name, value in values.items():
        found.spots.append(first + controls[name])
        found.codes.append(seen(coarse[name], value) if name in coarse else value)


def _read_messages(
    unit: UnitColumns, reception: Reception, run: Run, *, found: _Found, first: int
) -> None:
    """What only the messages themselves tell: bank registers, and what is in doubt."""
    arrivals = [one.arrival for one in run.heard[unit.id]]
    if unit.banks:
        messages = zip([one.data for one in arrivals], reception.fates, strict=True)
        _read_banks(unit, messages, first, found=found)
    if IN_DOUBT.isdisjoint(reception.fates):
        return
    doubts = doubts_of(unit.chart, arrivals, reception.fates)
    if doubts.program:
        found.spots.extend(first + column for column in unit.columns)
        found.codes.extend(UNTOLD for _ in unit.columns)
        return
    for name in doubts.controls & unit.controls.keys():
        found.spots.append(first + unit.controls[name])
        found.codes.append(UNTOLD)


def _read_banks(
    unit: UnitColumns, messages: Iterable[tuple[bytes, Fate]], first: int, *, found: _Found
) -> None:
    """Bank registers: what is left in them, and whether a program was picked by an old one."""
    numbering = unit.chart.programs
    left: dict[int, int] = {}
    asked: set[int] = set()
    for data, fate in messages:
        kind = data[0] & 0xF0
        if fate is Fate.PREPARES and kind == CONTROL_CHANGE and data[1] in unit.banks:
            left[data[1]] = data[2]
        elif kind == PROGRAM_CHANGE and fate in (Fate.OBEYED, Fate.NO_PROGRAM):
            asked |= unit.banks.keys() - left.keys()
            if numbering is not None and numbering.bank_cleared:
                left = dict.fromkeys(unit.banks, 0)
    for number, column in unit.banks.items():
        if number in asked:
            found.asked.append(first + column)
        if number in left:
            found.spots.append(first + column)
            found.codes.append(left[number])


def _filled(layout: Layout, loaded: Codes, found: _Found) -> Rows:
    """The rows: what programs hold, then what was found beyond."""
    own = loaded[:, layout.unit_of]
    by_program = np.where(layout.stored > 0, own, np.where(layout.stored < 0, UNTOLD, KEEPS))
    effects = np.ascontiguousarray(np.where(own >= 0, by_program, KEEPS), np.int32)
    effects.reshape(-1)[found.spots] = found.codes  # a view, since rows lie one after the other
    asks = (effects == KEEPS) & ~layout.is_bank
    asks.reshape(-1)[found.asked] = True
    return Rows(effects, asks)
