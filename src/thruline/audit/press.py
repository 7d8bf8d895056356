"""What was heard at one press, and its keys."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from thruline.audit.build import key_of
from thruline.audit.meant import CONTROL, Meant, parts_of
from thruline.audit.travels import FINE, NON_REGISTERED, SELECTORS, number_of, series_of

TRAVEL_LEAST = 6
"""As many values of one control in a row are the travel of a pedal."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Press:
    """What was heard at one step, by tap; `step` is None where no step seems to be meant."""

    step: int | None
    at_us: int
    heard: tuple[tuple[int, bytes], ...]


def keys_at(press: Press, meant: Meant) -> Iterator[int]:
    """What was heard at a press on something, as keys; travels of pedals as their two ends.

    They are looked for on channels on which a pedal moves something, and on all while a pedal is
    moved: then it may be wrong what it moves.
    """
    step, pedals = press.step or 0, _pedals(meant)
    is_sweep, channels = step >= meant.presets, {channel for channel, _ in pedals}
    for tap in range(len(meant.taps)):
        begin, moving = _place(step, tap), list[bytes]()
        for data in (data for at, data in press.heard if at == tap):
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
