"""What the controller has to hold in the new revision; what still does its work is left alone."""

from collections import Counter
from collections.abc import Iterator

from thruline.compare.facts import Fact, memory_fact
from thruline.proof.case import Case
from thruline.rig.preset import Preset
from thruline.rig.whole import Rig
from thruline.timing.run import Run, run_all
from thruline.timing.sending import Sending


def held(case: Case) -> dict[int, Fact]:
    """What the controller holds for each preset: its memory as written, or the best order."""
    return {
        preset.number: memory_fact(preset.name, case.run(preset).sending, loops(case.rig, preset))
        for preset in _first_of_each(case.rig)
    }


def to_hold(old: Case, new: Case) -> dict[int, Fact]:
    """What it has to hold in the new revision.

    Where the same messages are asked for and the old order of them still works, it may stay as it
    is, even if another order would be the best now.
    """
    wanted = held(new)
    candidates = [
        (preset, before)
        for preset in _first_of_each(new.rig)
        if (before := old.rig.preset(preset.number)) is not None
        and _same_messages(old.run(before).sending, new.run(preset).sending)
    ]
    sendings = [old.run(before).sending for _, before in candidates]
    runs = run_all(new.board.roads, new.board.listeners, sendings=sendings, hand=new.board.hand)
    for (preset, _), run in zip(candidates, runs, strict=True):
        if does_the_same(run, new.run(preset)):
            wanted[preset.number] = memory_fact(preset.name, run.sending, loops(new.rig, preset))
    return wanted


def does_the_same(one: Run, other: Run) -> bool:
    """Whether two sendings leave every unit in the same state, and the first loses nothing more."""
    return len(one.lost) <= len(other.lost) and all(
        mine.program == theirs.program
        and mine.values == theirs.values
        and mine.flips == theirs.flips
        and Counter(mine.fates) == Counter(theirs.fates)
        for mine, theirs in ((one.receptions[unit], other.receptions[unit]) for unit in one.heard)
    )


def _same_messages(one: Sending, other: Sending) -> bool:
    return Counter(item.data for item in one.items) == Counter(item.data for item in other.items)


def _first_of_each(rig: Rig) -> Iterator[Preset]:
    """Presets by their number; of a number that stands there twice the first counts."""
    return (preset for preset in rig.presets if preset.occurrence == 1)


def loops(rig: Rig, preset: Preset) -> tuple[str, ...]:
    """The relay loops that a preset puts in or out, in words."""
    found = []
    for goal in preset.goals:
        hung = rig.audio.loop_of(goal.unit) if rig.audio else None
        if goal.in_loop is not None and hung is not None:
            found.append(f"{hung[0]} {hung[1]} {'in' if goal.in_loop else 'out'}")
    return tuple(sorted(found))
