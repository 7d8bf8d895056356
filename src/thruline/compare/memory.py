"""What the controller has to hold in the new revision; what still does its work is left alone."""

from collections import Counter, defaultdict
from collections.abc import Iterator

from thruline.compare.facts import Fact, goes_over, memory_fact
from thruline.proof.case import Case
from thruline.rig.preset import Preset
from thruline.rig.whole import Rig
from thruline.timing.run import Run, run_all
from thruline.timing.sending import Item, Sending


def held(case: Case) -> dict[int, Fact]:
    """What the controller holds for each preset: its memory as written, or the best order."""
    return {
        preset.number: _fact(case, preset, case.run(preset).sending)
        for preset in _first_of_each(case.rig)
    }


def _fact(case: Case, preset: Preset, sending: Sending) -> Fact:
    held_loops = loops(case.rig, preset)
    return memory_fact(preset.name, sending, case.board.routing, loops=held_loops)


def to_hold(old: Case, new: Case) -> dict[int, Fact]:
    """What it has to hold in the new revision.

    Where the same messages are asked for and the old order of them still works, it may stay as it
    is, even if another order would be the best now.
    """
    wanted = held(new)
    candidates = [
        (preset, sending)
        for preset in _first_of_each(new.rig)
        if (before := old.rig.preset(preset.number)) is not None
        and (sending := _in_new_words(old, before, new, preset)) is not None
    ]
    sendings = [sending for _, sending in candidates]
    runs = run_all(new.board.roads, new.board.listeners, sendings=sendings, hand=new.board.hand)
    for (preset, _), run in zip(candidates, runs, strict=True):
        if does_the_same(run, new.run(preset)):
            wanted[preset.number] = _fact(new, preset, run.sending)
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


def _in_new_words(old: Case, before: Preset, new: Case, preset: Preset) -> Sending | None:
    """What is held for a preset, each message meant for what the new revision means it for.

    None where the new revision asks for other messages, or for the same over other outputs.
    """
    meant: defaultdict[tuple[bytes, str], list[Item]] = defaultdict(list)
    for item in new.run(preset).sending.items:
        meant[item.data, goes_over(new.board.routing, item.unit)].append(item)
    found = []
    for item in old.run(before).sending.items:
        alike = meant[item.data, goes_over(old.board.routing, item.unit)]
        if not alike:
            return None
        found.append(alike.pop(0)._replace(pause_us=item.pause_us))
    return None if any(meant.values()) else Sending(tuple(found))


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
