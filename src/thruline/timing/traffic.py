"""What senders hand to their outputs: messages as columns of whole numbers."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import NamedTuple, TypeAlias, TypeVar

import numpy as np
from numpy.typing import ArrayLike, NDArray

from thruline.base.errors import CannotUse
from thruline.timing.statuses import FIRST_REAL_TIME

Numbers: TypeAlias = NDArray[np.int64]
"""A column of whole numbers: microseconds, bytes or positions."""
StatusBytes: TypeAlias = NDArray[np.uint8]
Truths: TypeAlias = NDArray[np.bool_]
Positions: TypeAlias = NDArray[np.intp]
Entry = TypeVar("Entry", bound=np.generic)

LATEST_US = 1 << 53
"""Times further than this from 0 (285 years) are refused, so that no sum of times can wrap."""
LONGEST_BYTES = 1 << 24
"""A longer message (16 MiB, more than an hour on the wire) is refused."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Traffic:
    """The messages of one sender, in the order in which it hands them to its outputs.

    Four columns of n entries; `traffic` makes and checks them.
    """

    ready_us: Numbers
    """When the sender hands the message over; never falling."""
    length: Numbers
    """Bytes of the message with its status byte, at least 1."""
    status: StatusBytes
    ident: Numbers
    """What the caller calls the message; comes back in every flow."""
    has_real_time: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Batch:
    """Many sendings of one sender, each on its own as if the rig had been at rest before.

    Tables of B sendings by M messages; `batch` makes and checks them. An entry of length 0 is
    padding: no message.
    """

    ready_us: Numbers
    """When the sender hands the message over, from the start of its own sending."""
    length: Numbers
    status: StatusBytes
    has_real_time: bool


def traffic(
    ready_us: ArrayLike, length: ArrayLike, *, status: ArrayLike, ident: ArrayLike | None = None
) -> Traffic:
    """Traffic from columns; sorted by time, messages of one moment keep their order.

    `ident` counts from 0 in the order given when it is left out. Raises CannotUse when columns
    differ in length or hold what cannot be a message.
    """
    ready, lengths, statuses = _columns(ready_us, length, status, axes=1)
    idents = np.arange(ready.size) if ident is None else np.asarray(ident, np.int64)
    if idents.shape != ready.shape:
        raise CannotUse(f"{ready.size} messages, but {idents.size} names for them")
    if (lengths < 1).any():
        raise CannotUse("a message has no bytes; every message has at least its status byte")
    if (ready[1:] < ready[:-1]).any():
        order = np.argsort(ready, kind="stable")
        ready, lengths, statuses = ready[order], lengths[order], statuses[order]
        idents = idents[order]
    return Traffic(
        ready_us=ready,
        length=lengths,
        status=statuses,
        ident=idents,
        has_real_time=_any_real_time(statuses),
    )


def batch(ready_us: ArrayLike, length: ArrayLike, *, status: ArrayLike) -> Batch:
    """A batch from tables of B sendings by M messages; length 0 where there is no message.

    Raises CannotUse when tables differ in shape or hold what cannot be a message.
    """
    ready, lengths, statuses = _columns(ready_us, length, status, axes=2)
    return Batch(
        ready_us=ready,
        length=lengths,
        status=statuses,
        has_real_time=_any_real_time(statuses[lengths > 0]),
    )


def _any_real_time(status: StatusBytes) -> bool:
    """Whether a real-time message is among them."""
    return bool((status >= FIRST_REAL_TIME).any())


def _columns(
    ready_us: ArrayLike, length: ArrayLike, status: ArrayLike, *, axes: int
) -> tuple[Numbers, Numbers, StatusBytes]:
    """The three columns as arrays of `axes` axes, checked."""
    ready, lengths = np.asarray(ready_us, np.int64), np.asarray(length, np.int64)
    wide = np.asarray(status, np.int64)
    if not ready.shape == lengths.shape == wide.shape or ready.ndim != axes:
        shapes = f"{ready.shape}, {lengths.shape} and {wide.shape}"
        raise CannotUse(f"times, lengths and status bytes must agree in shape, not {shapes}")
    message = lengths > 0
    if lengths.size and (lengths.min() < 0 or lengths.max() > LONGEST_BYTES):
        raise CannotUse(f"a message has fewer than 0 or more than {LONGEST_BYTES} bytes")
    if (np.abs(ready) > LATEST_US).any():
        raise CannotUse("a message is more than 285 years away")
    if ((wide < 0x80) | (wide > 0xFF))[message].any():
        raise CannotUse("a status byte is outside 0x80 to 0xFF")
    if ((wide >= FIRST_REAL_TIME) & (lengths > 1)).any():
        raise CannotUse("a real-time message has more than its one byte")
    return ready, lengths, wide.astype(np.uint8)


class Sent(NamedTuple):
    """All messages of all senders in one list, sender after sender, row after row.

    The sendings of a batch share one scale of time, each so much later than the one before that the
    last byte of that has left every line. So a batch is played exactly like one long sending,
    except that running status ends with each of its sendings.
    """

    ready_us: Numbers
    length: Numbers
    status: StatusBytes
    ident: Numbers | None
    """None in a batch: there a message is called by its position in this list."""
    sending: NDArray[np.int32] | None
    """Which sending of a batch; None when there is only one."""
    pieces: tuple[slice, ...]
    """Where each sender's entries stand in the list."""
    handed_over: tuple[Positions | slice, ...]
    """Each sender's messages, without padding, in the order in which it hands them over."""
    has_real_time: bool
    """Whether there is any real-time message."""


def sent_once(senders: Sequence[Traffic]) -> Sent:
    """The messages of one sending."""
    if len(senders) == 1:
        return _sent_alone(senders[0])
    pieces = _pieces([sender.ready_us.size for sender in senders])
    return Sent(
        ready_us=_joined([sender.ready_us for sender in senders]),
        length=_joined([sender.length for sender in senders]),
        status=_joined([sender.status for sender in senders]),
        ident=_joined([sender.ident for sender in senders]),
        sending=None,
        pieces=pieces,
        handed_over=pieces,
        has_real_time=any(sender.has_real_time for sender in senders),
    )


def _sent_alone(sender: Traffic) -> Sent:
    """The messages of one sender, without a copy."""
    everything = (slice(0, sender.ready_us.size),)
    return Sent(
        ready_us=sender.ready_us,
        length=sender.length,
        status=sender.status,
        ident=sender.ident,
        sending=None,
        pieces=everything,
        handed_over=everything,
        has_real_time=sender.has_real_time,
    )


def sent_many(senders: Sequence[Batch], pitch_us: int) -> Sent:
    """The messages of a batch, its sendings `pitch_us` apart."""
    shapes = [sender.ready_us.shape for sender in senders]
    begins = [(np.arange(rows) * pitch_us)[:, None] for rows, _ in shapes]
    ready = [(each.ready_us + begin).ravel() for each, begin in zip(senders, begins, strict=True)]
    pieces = _pieces([times.size for times in ready])
    return Sent(
        ready_us=_joined(ready),
        length=_joined([sender.length.ravel() for sender in senders]),
        status=_joined([sender.status.ravel() for sender in senders]),
        ident=None,
        sending=_joined([np.repeat(np.arange(r, dtype=np.int32), c) for r, c in shapes]),
        pieces=pieces,
        handed_over=tuple(
            _in_time(times, sender.length.ravel(), piece)
            for times, sender, piece in zip(ready, senders, pieces, strict=True)
        ),
        has_real_time=any(sender.has_real_time for sender in senders),
    )


def _pieces(sizes: Sequence[int]) -> tuple[slice, ...]:
    """Lists of these sizes, one behind the other."""
    ends = list(accumulate(sizes))
    return tuple(slice(end - size, end) for end, size in zip(ends, sizes, strict=True))


def _joined(columns: Sequence[NDArray[Entry]]) -> NDArray[Entry]:
    """Columns one behind the other; a single one as it is, without a copy."""
    if len(columns) == 1:
        return columns[0]
    return np.concatenate(columns) if columns else np.empty(0, np.int64)


def _in_time(ready: Numbers, length: Numbers, piece: slice) -> Positions | slice:
    """Where a sender's messages stand, by time; its whole piece when all is in order already."""
    message = length > 0
    if message.all() and not (ready[1:] < ready[:-1]).any():
        return piece
    real = np.flatnonzero(message)
    places: Positions = real[np.argsort(ready[real], kind="stable")]
    places += piece.start
    return places
