"""The whole answer about a capture: press by press, the likeliest cause, what it leaves open."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import lgamma, log

import numpy as np

from thruline.audit.build import (
    FIRST_BITS,
    FIRST_MOST,
    TRAVEL_AT,
    build,
    head_in,
    is_travel,
    parts_of_head,
    status_in,
    step_in,
)
from thruline.audit.explain import Cause, Explained, explain
from thruline.audit.follow import Aligned
from thruline.audit.meant import CONTROL, PROGRAM, Column, Meant
from thruline.audit.score import Counted, counted
from thruline.audit.travels import number_of

SURE_BITS = 10.0
"""How much shorter it must be to say that misses gather in one place: odds of a thousand."""
STRAY_SHARE = 0.12
"""Messages that nobody foresees, for each press, that are put down to a busy line."""
STRAYS = 2
GATHERED = (3, 5)
"""As many unforeseen messages of one control, or on one channel, are no chance any more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ticked:
    """One step: whether it was done, and what differs from the plan (keys)."""

    step: int
    done: bool
    missing: tuple[int, ...] = ()
    more: tuple[int, ...] = ()

    @property
    def is_right(self) -> bool:
        """Whether it was done and everything came, and nothing else."""
        return self.done and not self.missing and not self.more


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What was found.

    `ticks` hold every step against the plan as it stands in the document; `causes` are the answers,
    the likeliest first (one without mistakes among them); `unexplained` are sentences about what
    the likeliest leaves open, to be read before it. `lost` of `predicted` messages did not come
    although the likeliest cause foresees them.
    """

    ticks: tuple[Ticked, ...]
    causes: tuple[Cause, ...]
    unexplained: tuple[str, ...]
    lost: int
    predicted: int
    strays: int
    malformed: int

    @property
    def is_clean(self) -> bool:
        """Whether all that was pressed is as it was meant."""
        done = [one for one in self.ticks if one.done]
        return bool(done) and all(one.is_right for one in done)

    @property
    def best(self) -> Cause:
        """The likeliest answer."""
        return self.causes[0]


def verdict(meant: Meant, aligned: Aligned) -> Verdict:
    """Tick every press off, and find the likeliest cause of all that differs."""
    explained = explain(meant, aligned.keys, aligned.pressed)
    missing, more = _differences(explained.predicted, explained.heard)
    more = _without_recalls(meant, explained.predicted, more)
    unplaced = sum(1 for one in aligned.presses if one.step is None)
    open_ends = [*_open_ends(meant, explained, missing, more)]
    if unplaced:
        open_ends.append(
            f"{unplaced} {'part' if unplaced == 1 else 'parts'} of the capture fit no press; "
            "was a preset pressed more than once?"
        )
    return Verdict(
        ticks=tuple(_ticks(meant, aligned)),
        causes=explained.causes,
        unexplained=tuple(open_ends),
        lost=explained.fit.missing,
        predicted=explained.fit.predicted,
        strays=explained.fit.unforeseen,
        malformed=aligned.malformed,
    )


def _without_recalls(meant: Meant, predicted: Counted, more: Column) -> Column:
    """What came besides, but for the places of pedals that a controller may send at a recall.

    They come where the answer has the sweeps go: a mistake moves them along with all else.
    """
    travels = is_travel(predicted.keys)
    moved = {parts_of_head(head) for head in head_in(predicted.keys[travels]).tolist()}
    heads = [status << FIRST_BITS | number_of(code) for status, code in moved]
    at_press = (step_in(more) < meant.presets) & ~is_travel(more)
    own = np.isin(_control_in(more), _control_in(predicted.keys[~travels]))
    return more[~(at_press & np.isin(head_in(more), heads) & ~own)]


def _control_in(keys: Column) -> Column:
    """Step, status byte and first number of each key, wherever it was heard."""
    return step_in(keys) << TRAVEL_AT | head_in(keys)


def _ticks(meant: Meant, aligned: Aligned) -> Iterator[Ticked]:
    planned = counted(build(meant, (), aligned.pressed))
    missing, more = _differences(planned, counted(aligned.keys))
    steps = range(1, len(meant.steps))
    lacks, extra = (np.split(one, np.searchsorted(step_in(one), steps)) for one in (missing, more))
    for step, (less, besides) in enumerate(zip(lacks, extra, strict=True)):
        yield Ticked(
            step=step,
            done=bool(aligned.pressed[step]),
            missing=tuple(less.tolist()),
            more=tuple(besides.tolist()),
        )


def _differences(predicted: Counted, heard: Counted) -> tuple[Column, Column]:
    """Keys that are missing, and keys that came besides, in order, each as often as it is so."""
    lacking = predicted.counts - heard.of(predicted.keys)
    besides = heard.counts - predicted.of(heard.keys)
    return _repeated(predicted.keys, lacking), _repeated(heard.keys, besides)


def _repeated(keys: Column, counts: Column) -> Column:
    return np.repeat(keys, np.maximum(0, counts))


def _open_ends(meant: Meant, explained: Explained, missing: Column, more: Column) -> Iterator[str]:
    """What the likeliest cause leaves open, as far as chance does not account for it."""
    planned = _repeated(explained.predicted.keys, explained.predicted.counts)
    presses = np.unique(step_in(np.concatenate((planned, more)))).size
    if more.size > STRAYS + STRAY_SHARE * presses:
        yield f"{more.size} messages came that nothing here explains"
    for says, group in _groupings(meant):
        what = _gathered(group(planned), group(missing))
        if what is not None:
            yield f"messages that did not come gather at {says(what)}"
            break
    for (says, group), least in zip(_groupings(meant), GATHERED, strict=False):
        names, often = np.unique(group(more), return_counts=True)
        if often.size and often.max() >= least:
            where = says(int(names[often.argmax()]))
            yield f"messages that nothing here explains gather at {where}"
            break


Grouping = tuple[Callable[[int], str], Callable[[Column], Column]]


def _groupings(meant: Meant) -> list[Grouping]:
    """Ways in which misses may gather: one control or program, one channel, one press."""

    def number(keys: Column) -> Column:
        """The program changes of a channel are one group, whatever their numbers."""
        heads = head_in(keys)
        return np.where(status_in(keys) >> 4 == CONTROL, heads, heads & ~FIRST_MOST)

    return [
        (_number_says, number),
        ("channel {}".format, lambda keys: (status_in(keys) & 0x0F) + 1),
        (lambda step: meant.steps[step].title, step_in),
    ]


def _number_says(head: int) -> str:
    status, first = parts_of_head(head)
    others = "programs" if status >> 4 == PROGRAM else "others"
    what = f"control {first}" if status >> 4 == CONTROL else others
    return f"channel {(status & 0x0F) + 1}, {what}"


def _gathered(planned: Column, missing: Column) -> int | None:
    """The group whose misses are told far shorter by themselves; None when chance will do."""
    total, lost = planned.size, missing.size
    if not lost:
        return None
    names, found = np.unique(planned, return_counts=True)
    sizes = dict(zip(names.tolist(), found.tolist(), strict=True))
    together = _choose_bits(total, lost)
    best: tuple[float, int | None] = (SURE_BITS, None)
    names, found = np.unique(missing, return_counts=True)
    for name, some in zip(names.tolist(), found.tolist(), strict=True):
        size = sizes[name]
        apart = _choose_bits(size, some) + _choose_bits(total - size, lost - some)
        saved = together - apart - log(len(sizes) * (total + 1) ** 0.5) / log(2)
        if some / size > lost / total and saved > best[0]:
            best = (saved, name)
    return best[1]


def _choose_bits(total: int, some: int) -> float:
    return (lgamma(total + 1) - lgamma(some + 1) - lgamma(total - some + 1)) / log(2)
