"""Which press each part of a capture belongs to, and what was heard at it, as keys."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from thruline.audit.build import key_of
from thruline.audit.capture import Capture, Caught, Note, NoteKind, caught
from thruline.audit.meant import CONTROL, Column, Mask, Meant, parts_of
from thruline.audit.travels import (
    FINE,
    NON_REGISTERED,
    SELECTORS,
    number_of,
    series_of,
)
from thruline.base.errors import CannotUse
from thruline.midi import specs
from thruline.midi.identity import message_to_reply, message_to_request
from thruline.midi.message import RealTime, SystemExclusive
from thruline.rig.nearest import nearest

SILENCE_US = 400_000
"""A silence this long ends what one press sends."""
TRAVEL_LEAST = 6
"""As many values of one control in a row are the travel of a pedal."""
SKIPPED = 0.05
"""What it costs to leave out something heard, when a place is sought for everything."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Press:
    """What was heard at one step, by tap; `step` is None where no step seems to be meant."""

    step: int | None
    at_us: int
    heard: tuple[tuple[int, bytes], ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Aligned:
    """All presses, the keys of what was heard, which steps were done, and malformed bytes."""

    presses: tuple[Press, ...]
    keys: Column
    pressed: Mask
    malformed: int


def align(capture: Capture, meant: Meant) -> Aligned:
    """Find the press that everything belongs to.

    Notes of presses settle it. Without any, silences part the capture, and the parts follow one
    another as the presets do; where there are more or fewer, each goes where it fits best. A step
    that was done twice counts as it was the last time, one that is noted as skipped as not done.
    Raises CannotUse for a note about a preset that is not there.
    """
    taps, malformed = taps_of(capture, meant), list[Caught]()
    noted = any(is_of_a_press(one) for one in capture.notes)
    events = _whole(capture, malformed)
    parts = list(_noted(events, meant, taps) if noted else _parted(events, taps))
    if not noted:
        parts = _placed(parts, meant)
    last = {part.step: part for part in parts if part.step is not None}
    pedals = _pedals(meant)
    keys = [key for part in last.values() for key in _keys(part, meant, pedals)]
    pressed = np.zeros(len(meant.steps), np.bool_)
    pressed[list(last)] = True
    return Aligned(
        presses=tuple(parts),
        keys=np.array(keys, np.int64),
        pressed=pressed,
        malformed=len(malformed),
    )


def _whole(capture: Capture, malformed: list[Caught]) -> Iterator[Caught | Note]:
    """What is of presses, without what is malformed, which is put aside."""
    for one in caught(capture):
        if not is_of_a_press(one):
            continue
        if isinstance(one, Caught) and one.message is None:
            malformed.append(one)
        else:
            yield one


def is_of_a_press(one: Caught | Note) -> bool:
    """Whether it may belong to what was pressed; of the notes those of presses do.

    Clock, sensing and the like go on whatever is pressed, and who is there is asked and answered
    by others.
    """
    if isinstance(one, Note):
        return one.kind in (NoteKind.PRESS, NoteKind.SWEEP, NoteKind.SKIP)
    match one.message:
        case None:
            return one.raw[:1] < bytes((specs.CLOCK.status,))
        case SystemExclusive() as message:
            return message_to_request(message) is None and message_to_reply(message) is None
        case message:
            return not isinstance(message, RealTime)


def taps_of(capture: Capture, meant: Meant) -> dict[int, int]:
    """Lines of the capture by the tap that each is: by name, or in their order."""
    places = {name: place for place, name in enumerate(meant.taps)}
    named = {number: places[name] for number, name in enumerate(capture.lines, 1) if name in places}
    if named:
        return named
    return {number: number - 1 for number in range(1, min(len(capture.lines), len(places)) + 1)}


def _noted(events: Iterable[Caught | Note], meant: Meant, taps: dict[int, int]) -> Iterable[Press]:
    """Parts from one noted press to the next.

    What was asked for last and not heard is no press: there the person stopped.
    """
    step, at_us, heard = None, 0, list[tuple[int, bytes]]()
    for one in events:
        if isinstance(one, Note):
            skipped = one.kind is NoteKind.SKIP
            if step is not None and not skipped:
                yield Press(step=step, at_us=at_us, heard=tuple(heard))
            step = None if skipped else step_noted(one, meant)
            at_us, heard = one.at_us, []
        elif one.line in taps:
            heard.append((taps[one.line], one.raw))
    if step is not None and heard:
        yield Press(step=step, at_us=at_us, heard=tuple(heard))


def step_noted(note: Note, meant: Meant) -> int:
    """The step that a note is about. Raises CannotUse, naming what there is, when it is none."""
    for place, step in enumerate(meant.steps):
        named = step.sweep if note.kind is NoteKind.SWEEP else str(step.preset)
        if named is not None and named.lower() == _noted_name(note):
            return place
    names = [step.sweep or str(step.preset) for step in meant.steps]
    meant_name = nearest(note.text, names)
    hint = f'; did you mean "{meant_name}"?' if meant_name else ""
    raise CannotUse(f'the capture notes a press of "{note.text}", which is not in this rig{hint}')


def _noted_name(note: Note) -> str:
    """What a note names: of a preset its number, behind which its name may stand."""
    text = note.text.lower()
    return text if note.kind is NoteKind.SWEEP else text.partition(" ")[0]


def _parted(events: Iterable[Caught | Note], taps: dict[int, int]) -> Iterable[Press]:
    """Parts between silences."""
    begin_us, last_us, heard = 0, -SILENCE_US, list[tuple[int, bytes]]()
    for one in events:
        if isinstance(one, Note) or one.line not in taps:
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


def _keys(part: Press, meant: Meant, pedals: set[tuple[int, int]]) -> Iterator[int]:
    """What was heard at one press, as keys; travels of pedals folded into their two ends.

    `pedals` are channels and codes of what sweeps move. On other channels nothing is folded, but
    while a pedal is moved: then it may be wrong which control it moves.
    """
    step = part.step or 0
    is_sweep, channels = step >= meant.presets, {channel for channel, _ in pedals}
    for tap in range(len(meant.taps)):
        begin, moving = _place(step, tap), list[bytes]()
        for data in (data for at, data in part.heard if at == tap):
            status = data[0]
            if status >> 4 == CONTROL and (is_sweep or status & 0x0F in channels):
                moving.append(data)
            else:
                yield begin | _message_in(data)
        if moving:
            yield from _moving_keys(moving, meant, step, tap=tap, pedals=pedals)


def _moving_keys(
    heard: list[bytes], meant: Meant, step: int, *, tap: int, pedals: set[tuple[int, int]]
) -> Iterator[int]:
    """Control changes on channels on which a pedal moves something."""
    begin, is_sweep = _place(step, tap), step >= meant.presets
    pairs = frozenset(
        (channel, code) for channel, code in pedals if (channel, code | FINE) in pedals
    )
    moved = {channel for channel, code in pedals if code >= NON_REGISTERED}
    if not is_sweep:
        moved -= {one for one in moved if any(_sets(meant, step, one, code) for code in SELECTORS)}
    found = series_of(heard, pairs=pairs, moved=frozenset(moved))
    for (channel, code), series in found.items():
        values = series.values
        travels = len(values) >= TRAVEL_LEAST
        if is_sweep and travels:
            ends = (code, values[0] << 7 | values[-1])
            yield int(key_of(step, tap, travel=1, kind=CONTROL, channel=channel, numbers=ends))
        elif not ((channel, code) in pedals and (travels or not _sets(meant, step, channel, code))):
            yield from (begin | _message_in(data) for data in series.raw)


def _place(step: int, tap: int) -> int:
    """What all keys of one press at one tap have in common."""
    return int(key_of(step, tap, travel=0, kind=0, channel=0, numbers=(0, 0)))


@lru_cache(maxsize=1 << 13)
def _message_in(data: bytes) -> int:
    """What a message adds to the key of its place; lines repeat themselves."""
    kind, channel, first, second = parts_of(data)
    return int(key_of(0, 0, travel=0, kind=kind, channel=channel, numbers=(first, second)))


def _pedals(meant: Meant) -> set[tuple[int, int]]:
    """Channels and codes of what sweeps move."""
    rows = meant.rows
    return set(
        zip(rows.channel[rows.travel].tolist(), rows.first[rows.travel].tolist(), strict=True)
    )


def _sets(meant: Meant, step: int, channel: int, code: int) -> bool:
    """Whether a preset sets this control itself."""
    rows = meant.rows
    chosen = (rows.step == step) & (rows.channel == channel) & (rows.first == number_of(code))
    return bool((chosen & (rows.kind == CONTROL) & ~rows.travel).any())
