"""The order for a controller that chooses outputs, held against every order there is."""

import random
from itertools import permutations

import pytest

from tests.opening import open_text
from thruline.compose.jobs import Proof
from thruline.proof.case import Case
from thruline.proof.example_boards import a_cable, a_preset, a_unit, board
from thruline.timing.run import run_all
from thruline.timing.sending import Purpose, Sending

WANTS = {
    "echo": ('"12"', "{ mix = 40 }", '{ program = "12", mix = 40 }'),
    "reverb": ('"31"', "{ mix = 35 }", '{ program = "31", mix = 35 }'),
    "pitch": ('"2A"', "{ mix = 50 }"),
    "delay": ("{ mix = 40 }", "{ mix = 40, repeats = 30 }"),
}
"""What can be wanted of each unit; none of it has to wait for anything."""
LEADS = {
    "pitch": ("trs-6.35", 'wiring = "type-b"'),
    "reverb": ("trs-3.5", 'wiring = "type-a"'),
}
SET = {"echo": ('settings = { control-receive = "yes" }',)}
MOST = 6
"""Messages of a preset: so many can be put in every order."""


def routed(seed):
    """A board of three units on two outputs, on one channel across these, and a preset."""
    dice = random.Random(seed)
    names = dice.sample(sorted(WANTS), 3)
    charts = {"echo": "laxton-echo", "reverb": "pippin-reverb", "pitch": "gala-pitch",
              "delay": "bramley-delay"}  # fmt: skip
    lines = dict(zip(names, [1, 2, dice.choice([1, 2])], strict=True))
    channels = [3, dice.choice([3, 5]), 4]  # the third shares an output with one of the others
    units = [
        a_unit(name, charts[name], f"channel = {channel}", *SET.get(name, ()))
        for name, channel in zip(names, channels, strict=True)
    ]
    cables = [a_cable("feet.midi-out-1", "a.midi-in"), a_cable("feet.midi-out-2", "b.midi-in")]
    for place, (name, line) in enumerate(lines.items(), 1):
        plug, *wiring = LEADS.get(name, ("din5",))
        start = f"{'ab'[line - 1]}.out-{place}"
        cables.append(a_cable(start, f"{name}.midi-in", *wiring, ends=f"din5/{plug}"))
    rows = [f"{name} = {dice.choice(WANTS[name])}" for name in names]
    boxes = [a_unit("a", "cox-split"), a_unit("b", "cox-split")]
    pieces = (*boxes, *units, *cables, a_preset(1, "One", *rows))
    controller = dice.choice(["pearmain-ten", "gilliflower-two"])
    return Case(open_text(board(*pieces, controller=controller).rig).rig)


def orders(items):
    """Every order in which banks come before programs, and controls behind them, unit by unit."""
    rank = {Purpose.BANK: 0, Purpose.PROGRAM: 1}
    for those in permutations(items):
        last = dict.fromkeys({one.unit for one in those}, 0)
        for one in those:
            here = rank.get(one.purpose, 2)
            if here < last[one.unit]:
                break
            last[one.unit] = here
        else:
            yield Sending(tuple(one._replace(pause_us=0) for one in those))


def played(case, sendings):
    board = case.board
    return run_all(board.roads, board.listeners, sendings=sendings, hand=board.hand)


def failed(run):
    return sum(not fate.is_good for one in run.receptions.values() for fate in one.fates)


@pytest.mark.parametrize("seed", range(12))
def test_no_order_is_right_sooner_or_the_gap_is_said(seed):
    case = routed(seed)
    (preset,) = case.rig.presets
    run, ordered = case.run(preset), case.composed(preset).ordered
    assert not failed(run)
    assert 2 <= len(run.sending.items) <= MOST
    runs = played(case, [*orders(run.sending.items)])
    least = min(one.right_us for one in runs if failed(one) <= failed(run))
    if ordered.proof is Proof.NOT_PROVED:
        assert ordered.bound_us <= least <= run.right_us
    else:
        assert run.right_us == least


@pytest.mark.parametrize("seed", range(12))
def test_no_random_order_with_random_pauses_beats_the_bound(seed):
    case, dice = routed(seed), random.Random(seed)
    (preset,) = case.rig.presets
    run, bound_us = case.run(preset), case.composed(preset).ordered.bound_us
    allowed = [*orders(run.sending.items)]
    drawn = [
        Sending(tuple(
            one._replace(pause_us=dice.choice([0, 0, 0, 1000, 5000]))
            for one in dice.choice(allowed).items
        ))
        for _ in range(100)
    ]  # fmt: skip
    for one in played(case, drawn):
        assert failed(one) > failed(run) or one.right_us >= bound_us
