"""The table: what each preset does to each column, and which columns it must find right.

A table that goes on from an earlier one reads only the presets whose run is another one.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from thruline.rig.preset import Preset
from thruline.sameness.codes import UNTOLD, Codes, Truths
from thruline.sameness.columns import Layout
from thruline.sameness.cover import Cover, cover_of
from thruline.sameness.rows import Earlier, Rows, loops_in, read_rows
from thruline.sameness.strokes import Strokes
from thruline.timing.run import Run


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class EffectTable:
    """What each preset does to each column.

    `effects` are codes, presets x columns; `asks` tells where a preset depends on what the column
    was before. `own` is what the presets' own messages do, before any sweep is looked at.
    """

    layout: Layout
    presets: tuple[Preset, ...]
    runs: tuple[Run, ...]
    own: Rows
    strokes: Strokes
    cover: Cover
    effects: Codes
    asks: Truths


def effect_table(
    layout: Layout,
    presets: Sequence[Preset],
    runs: Sequence[Run],
    *,
    strokes: Strokes,
    before: EffectTable | None = None,
) -> EffectTable:
    """The table of a rig; `runs` stand in the order of the presets.

    Where `before` has the very same layout and as many presets, rows of unchanged runs are kept.
    """
    goes_on = before is not None and before.layout is layout and len(before.runs) == len(runs)
    same = before if goes_on else None
    own = read_rows(layout, presets, runs) if same is None else _again(same, presets, runs)
    return assemble(layout, presets, own, strokes=strokes, runs=runs, before=same)


def _again(before: EffectTable, presets: Sequence[Preset], runs: Sequence[Run]) -> Rows:
    """The rows of an earlier table, those of changed presets read anew."""
    layout = before.layout
    changed = [
        row
        for row, (preset, run) in enumerate(zip(presets, runs, strict=True))
        if run is not before.runs[row] or not _same_loops(layout, preset, before.presets[row])
    ]
    if not changed:
        return before.own
    known = Rows(before.own.effects[changed], before.own.asks[changed])
    fresh = read_rows(
        layout,
        [presets[row] for row in changed],
        [runs[row] for row in changed],
        earlier=Earlier(known, [before.runs[row] for row in changed]),
    )
    effects, asks = before.own.effects.copy(), before.own.asks.copy()
    effects[changed], asks[changed] = fresh.effects, fresh.asks
    return Rows(effects, asks)


def _same_loops(layout: Layout, one: Preset, other: Preset) -> bool:
    return one is other or list(loops_in(layout, one)) == list(loops_in(layout, other))


def assemble(
    layout: Layout,
    presets: Sequence[Preset],
    own: Rows,
    *,
    strokes: Strokes,
    runs: Sequence[Run] = (),
    before: EffectTable | None = None,
) -> EffectTable:
    """The table of rows that were read already, with what the sweeps add to them."""
    if before is not None and before.strokes is strokes:
        cover = before.cover
    else:
        cover = cover_of(strokes.strokes, len(presets), len(layout.columns))
    return EffectTable(
        layout=layout,
        presets=tuple(presets),
        runs=tuple(runs),
        own=own,
        strokes=strokes,
        cover=cover,
        effects=np.where(cover.untold, np.int32(UNTOLD), own.effects),
        asks=own.asks & ~cover.decides & ~cover.untold,
    )
