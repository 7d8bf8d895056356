"""The whole answer about a capture: press by press, the likeliest cause, what it leaves open."""

from collections import Counter
from collections.abc import Callable, Hashable, Iterator
from dataclasses import dataclass
from math import lgamma, log

import numpy as np

from thruline.audit.align import Aligned
from thruline.audit.build import build, parts_in
from thruline.audit.explain import Cause, Explained, explain
from thruline.audit.meant import Column, Meant
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


def verdict(
    meant: Meant, aligned: Aligned, *, first: Callable[[Verdict], None] | None = None
) -> Verdict:
    """Tick every press off, and find the likeliest cause of all that differs.

    `first` is told at once what a single mistake would explain.
    """

    def early(explained: Explained) -> None:
        if first is not None:
            first(_verdict(meant, aligned, explained))

    return _verdict(meant, aligned, explain(meant, aligned.keys, aligned.pressed, first=early))


def _verdict(meant: Meant, aligned: Aligned, explained: Explained) -> Verdict:
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


def _without_recalls(meant: Meant, predicted: Counted, more: list[int]) -> list[int]:
    """What came besides, but for the places of pedals that a controller may send at a recall.

    They come where the answer has the sweeps go: a mistake moves them along with all else.
    """
    parts = [parts_in(key) for key in predicted.keys.tolist()]
    moved = {(status, number_of(code)) for _, _, travel, status, code, _ in parts if travel}
    own = {(step, status, first) for step, _, travel, status, first, _ in parts if not travel}

    def is_recall(key: int) -> bool:
        step, _, travel, status, first, _ = parts_in(key)
        at_press = step < meant.presets and not travel
        return at_press and (status, first) in moved and (step, status, first) not in own

    return [key for key in more if not is_recall(key)]


def _ticks(meant: Meant, aligned: Aligned) -> Iterator[Ticked]:
    planned = counted(build(meant, (), aligned.pressed))
    missing, more = _differences(planned, counted(aligned.keys))
    by_step: dict[int, tuple[list[int], list[int]]] = {}
    for side, keys in enumerate((missing, more)):
        for key in keys:
            by_step.setdefault(parts_in(key)[0], ([], []))[side].append(key)
    for step in range(len(meant.steps)):
        lacks, extra = by_step.get(step, ([], []))
        yield Ticked(
            step=step, done=bool(aligned.pressed[step]), missing=tuple(lacks), more=tuple(extra)
        )


def _differences(predicted: Counted, heard: Counted) -> tuple[list[int], list[int]]:
    """Keys that are missing, and keys that came besides, each as often as it is so."""
    lacking = predicted.counts - heard.of(predicted.keys)
    besides = heard.counts - predicted.of(heard.keys)
    return _repeated(predicted.keys, lacking), _repeated(heard.keys, besides)


def _repeated(keys: Column, counts: Column) -> list[int]:
    found: list[int] = np.repeat(keys, np.maximum(0, counts)).tolist()
    return found


def _open_ends(
    meant: Meant, explained: Explained, missing: list[int], more: list[int]
) -> Iterator[str]:
    """What the likeliest cause leaves open, as far as chance does not account for it."""
    planned = _repeated(explained.predicted.keys, explained.predicted.counts)
    presses = len({parts_in(key)[0] for key in (*planned, *more)})
    if len(more) > STRAYS + STRAY_SHARE * presses:
        yield f"{len(more)} messages came that nothing here explains"
    for says, group in _groupings(meant):
        what = _gathered(planned, missing, group)
        if what is not None:
            yield f"messages that did not come gather at {says(what)}"
            break
    for (says, group), least in zip(_groupings(meant), GATHERED, strict=False):
        often = Counter(group(key) for key in more).most_common(1)
        if often and often[0][1] >= least:
            yield f"messages that nothing here explains gather at {says(often[0][0])}"
            break


Grouping = tuple[Callable[[Hashable], str], Callable[[int], Hashable]]


def _groupings(meant: Meant) -> list[Grouping]:
    """Ways in which misses may gather: one control or program, one channel, one press."""

    def number(key: int) -> Hashable:
        _, _, _, status, first, _ = parts_in(key)
        return status, first if status >> 4 == 0xB else -1

    def number_says(group: Hashable) -> str:
        status, first = group if isinstance(group, tuple) else (0, 0)
        what = f"control {first}" if first >= 0 else "programs" if status >> 4 == 0xC else "others"
        return f"channel {(status & 0x0F) + 1}, {what}"

    def step_says(group: Hashable) -> str:
        return meant.steps[group].title if isinstance(group, int) else ""

    return [
        (number_says, number),
        (lambda group: f"channel {group}", lambda key: (parts_in(key)[3] & 0x0F) + 1),
        (step_says, lambda key: parts_in(key)[0]),
    ]


def _gathered(
    planned: list[int], missing: list[int], group: Callable[[int], Hashable]
) -> Hashable | None:
    """The group whose misses are told far shorter by themselves; None when chance will do."""
    total, lost = len(planned), len(missing)
    if not lost:
        return None
    sizes = Counter(group(key) for key in planned)
    losses = Counter(group(key) for key in missing)
    together = _choose_bits(total, lost)
    best: tuple[float, Hashable] = (0.0, None)
    for name, some in losses.items():
        size = max(sizes[name], some)
        apart = _choose_bits(size, some) + _choose_bits(total - size, lost - some)
        saved = together - apart - log(max(1, len(sizes)) * (total + 1) ** 0.5) / log(2)
        if some / size > lost / total and saved > max(SURE_BITS, best[0]):
            best = (saved, name)
    return best[1]


def _choose_bits(total: int, some: int) -> float:
    total = max(total, some)
    return (lgamma(total + 1) - lgamma(some + 1) - lgamma(total - some + 1)) / log(2)
