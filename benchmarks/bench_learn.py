"""What is learned of a controller that plays the demonstration rig, over damaged lines.

    python benchmarks/bench_learn.py [--quick] [--tune | --seeds N]

Every preset is pressed some times in an order by chance, and every pedal moved on a preset of its
own; then so many of the bytes are garbled or lost. A message that was sent counts as attributed
when the preset or sweep that sent it holds it afterwards. Seeds of `--tune` are for looking at.
"""

import random
import sys
import time
from collections import Counter
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from thruline.audit.capture import Came, Capture, Note, NoteKind
from thruline.audit.meant import Meant, default_taps, meant_by
from thruline.bench.pretend import Trouble, pretend_capture
from thruline.learn.learned import Learned, learn
from thruline.learn.meaning import knows
from thruline.proof.case import Case
from thruline.rig.sweep import values_of
from thruline.wiring import demo_texts, open_sample


@dataclass(frozen=True)
class Outcome:
    """Shares of messages: sent ones that are attributed, learned ones that were never sent."""

    attributed: float
    presets: float
    wrong: int
    sweeps: float
    curves: float
    accounted: float
    seconds: float


def pressed(meant: Meant, rng: random.Random, times: int) -> list[int]:
    """Steps as a person does them: presets by chance, and each pedal on a preset that it is for."""
    steps = [step for step in range(meant.presets) for _ in range(times)]
    rng.shuffle(steps)
    for number, sweep in enumerate(meant.case.rig.sweeps):
        places = [at for at, step in enumerate(steps) if meant.steps[step].preset in sweep.presets]
        for place in sorted(rng.sample(places, min(times, len(places))), reverse=True):
            steps.insert(place + 1, meant.presets + number)
    return steps


def unlabelled(capture: Capture) -> Capture:
    """As a plain listener keeps it: nobody said what was pressed."""
    return replace(capture, entries=tuple(one for one in capture.entries if isinstance(one, Came)))


def tried(
    meant: Meant, seed: int, *, times: int, damage: float, said: bool, charts: bool
) -> Outcome:
    """One capture, learned; what came of it."""
    rng = random.Random(seed)
    steps = pressed(meant, rng, times)
    clean = pretend_capture(meant, pressed=steps)
    trouble = Trouble(garbled=damage / 2, dropped=damage / 2)
    capture = pretend_capture(meant, pressed=steps, trouble=trouble, chance=rng.random)
    begin = time.process_time()
    units = {one.sent_on: one for one in meant.case.rig.units.values() if one.sent_on}
    known = partial(knows, units if charts else {})
    found = learn([capture if said else unlabelled(capture)], known)
    took = time.process_time() - begin
    return judged(meant, clean, found, took, said=said)


def judged(meant: Meant, clean: Capture, found: Learned, took: float, *, said: bool) -> Outcome:
    """The learned presets and sweeps held against what was sent."""
    presets = {one.number: Counter(each.data for each in one.agreed) for one in found.presets}
    pedals = {(move.moved.channel, move.moved.code) for one in found.sweeps for move in one.moves}
    if not said:
        presets = renumbered(meant, presets)
    sent = there = to_preset = in_preset = 0
    step: Note | None = None
    room: Counter[bytes] = Counter()
    for one in clean.entries:
        if isinstance(one, Note):
            step = one
            number = int(one.text) if one.kind is NoteKind.PRESS else -1
            room = Counter(presets.get(number, Counter()))
            continue
        sent += 1
        if (one.data[0] & 0x0F, one.data[1]) in pedals and one.data[0] >> 4 == 0xB:
            there += 1
        elif step is not None and step.kind is NoteKind.PRESS:
            to_preset += 1
            if room[one.data] > 0:
                room[one.data] -= 1
                there += 1
                in_preset += 1
    wanted = {one.number: meant.case.run(one).sending.items for one in meant.case.rig.presets}
    wrong = sum(
        (presets.get(number, Counter()) - Counter(item.data for item in items)).total()
        for number, items in wanted.items()
    )
    ranges, curves = swept(meant, found)
    share = in_preset / max(1, to_preset)
    return Outcome(there / sent, share, wrong, ranges, curves, found.account.share, took)


def renumbered(meant: Meant, presets: dict[int, Counter[bytes]]) -> dict[int, Counter[bytes]]:
    """Presets that nobody numbered, each under the number of the one that it fits best."""
    found: dict[int, Counter[bytes]] = {}
    free = dict(presets)
    for one in meant.case.rig.presets:
        want = Counter(item.data for item in meant.case.run(one).sending.items)
        if free:
            best = max(free, key=lambda number: (free[number] & want).total())
            found[one.number] = free.pop(best)
    return found


def swept(meant: Meant, found: Learned) -> tuple[float, float]:
    """Shares of moves whose range, and whose curve besides, are as they were sent."""
    rig = meant.case.rig
    moves = {
        (move.moved.channel, move.moved.code): move for one in found.sweeps for move in one.moves
    }
    ranges, curves = [], []
    for sweep in rig.sweeps:
        for move in sweep.moves:
            learned = moves.get(((rig.units[move.unit].sent_on or 1) - 1, move.control.number))
            values = values_of(move)
            right = learned is not None and (learned.heel, learned.toe) == (values[0], values[-1])
            ranges.append(right)
            curves.append(right and learned.fitted.curve.name == move.curve.name)
    return float(np.mean(ranges)), float(np.mean(curves))


def main(options: list[str]) -> None:
    """Every set, one row each."""
    base = 1_000 if "--tune" in options else 10_000
    if "--seeds" in options:
        base = int(options[options.index("--seeds") + 1])
    count = 5 if "--quick" in options else 50
    case = Case(open_sample(demo_texts()[1], "demonstration").rig)
    meant = meant_by(case, default_taps(case))
    for times, damage, said, charts in (
        (1, 0.0, True, False), (1, 0.01, True, False), (1, 0.01, True, True),
        (2, 0.01, True, False), (2, 0.01, True, True), (3, 0.01, True, False),
        (3, 0.01, True, True), (4, 0.01, True, False), (3, 0.03, True, False),
        (1, 0.0, False, False), (2, 0.01, False, False), (3, 0.01, False, False),
    ):  # fmt: skip
        rows = [
            tried(meant, base + 97 * number, times=times, damage=damage, said=said, charts=charts)
            for number in range(count)
        ]
        columns = {
            name: np.array([getattr(one, name) for one in rows]) for name in Outcome.__annotations__
        }
        share = columns["attributed"]
        title = f"{times} presses, {damage:4.0%} of bytes damaged, {'said' if said else 'not said'}"
        print(
            f"{title + (', charts' if charts else ''):52}  "
            f"attributed {share.mean():7.2%} (least {share.min():7.2%})  "
            f"of presets {columns['presets'].mean():7.2%}  "
            f"never sent {columns['wrong'].mean():5.2f}  "
            f"ranges {columns['sweeps'].mean():6.1%}  curves {columns['curves'].mean():6.1%}  "
            f"accounted {columns['accounted'].mean():7.2%}  CPU {columns['seconds'].mean():.2f} s",
            flush=True,
        )


if __name__ == "__main__":
    main(sys.argv[1:])
