"""Which press each part of a capture belongs to, and what was heard at it, as keys."""

from collections import Counter
from collections.abc import Iterable, Sequence

import numpy as np

from thruline.audit.capture import Capture, Caught, caught, is_of_a_press
from thruline.audit.follow import Aligned, Follower, aligned, keys_of, taps_of
from thruline.audit.meant import Meant, parts_of
from thruline.audit.press import Press

SILENCE_US = 400_000
"""A silence this long ends what one press sends."""
SKIPPED = 0.05
"""What it costs to leave out something heard, when a place is sought for everything."""


def align(capture: Capture, meant: Meant) -> Aligned:
    """Find the press that everything belongs to.

    Notes of presses settle it. Without any, silences part the capture, and the parts follow one
    another as the presets do; where there are more or fewer, each goes where it fits best. A step
    that was done twice counts as it was the last time, one that is noted as skipped as not done.
    Raises CannotUse for a note about a preset that is not there.
    """
    if any(is_of_a_press(one) for one in capture.notes):
        follower = Follower(meant, capture.lines)
        for entry in capture.entries:
            follower.take(entry)
        return follower.aligned()
    events = [one for one in caught(capture) if isinstance(one, Caught) and is_of_a_press(one)]
    whole = [one for one in events if one.message is not None]
    presses = _placed(list(_parted(whole, taps_of(capture.lines, meant))), meant)
    last = {one.step: one for one in presses if one.step is not None}
    keys = {step: keys_of(press, meant) for step, press in last.items()}
    return aligned(presses, keys, meant=meant, malformed=len(events) - len(whole))


def _parted(events: Iterable[Caught], taps: dict[int, int]) -> Iterable[Press]:
    """Parts between silences."""
    begin_us, last_us, heard = 0, -SILENCE_US, list[tuple[int, bytes]]()
    for one in events:
        if one.line not in taps:
            continue
        if heard and one.at_us - last_us >= SILENCE_US:
            yield Press(step=None, at_us=begin_us, heard=tuple(heard))
            heard = []
        if not heard:
            begin_us = one.at_us
        heard.append((taps[one.line], one.raw))
        last_us = one.at_us
    if heard:
        yield Press(step=None, at_us=begin_us, heard=tuple(heard))


def _placed(parts: Sequence[Press], meant: Meant) -> list[Press]:
    """Each part with its step: one after the other, or where most of it fits, in order."""
    if len(parts) in (meant.presets, len(meant.steps)):
        return [_at(part, step) for step, part in enumerate(parts)]
    fits = _fits(parts, meant)
    rows, columns = fits.shape
    best = np.zeros((rows + 1, columns + 1))
    for row in range(rows - 1, -1, -1):
        for column in range(columns - 1, -1, -1):
            here = fits[row, column] + best[row + 1, column + 1]
            best[row, column] = max(here, best[row, column + 1], best[row + 1, column] - SKIPPED)
    found, row, column = list[Press](), 0, 0
    while row < rows and column < columns:
        if best[row, column] == best[row, column + 1]:
            column += 1
        elif best[row, column] == fits[row, column] + best[row + 1, column + 1]:
            found.append(_at(parts[row], column))
            row, column = row + 1, column + 1
        else:
            found.append(parts[row])
            row += 1
    return [*found, *parts[row:]]


def _fits(
    parts: Sequence[Press], meant: Meant
) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """How much of each part is what each step should send, less what is too little to say so."""
    rows = meant.rows
    wanted = [Counter[tuple[int, int, int, int]]() for _ in meant.steps]
    columns = (rows.step, rows.kind, rows.channel, rows.first, rows.second, rows.old | rows.travel)
    for step, kind, channel, first, second, aside in zip(
        *(one.tolist() for one in columns), strict=True
    ):
        if not aside:
            wanted[step][kind, channel, first, second] += 1
    fits = np.full((len(parts), len(meant.steps)), -2 * SKIPPED)
    for place, part in enumerate(parts):
        came = Counter(parts_of(data) for _, data in part.heard)
        for step, want in enumerate(wanted):
            most = max(1, came.total(), want.total())
            fits[place, step] += (came & want).total() / most
    return fits


def _at(part: Press, step: int) -> Press:
    return Press(step=step, at_us=part.at_us, heard=part.heard)
