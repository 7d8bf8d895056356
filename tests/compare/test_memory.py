"""What the controller has to hold, and what may stay."""

import json

from tests.opening import open_text
from thruline.compare.memory import does_the_same, held, loops, to_hold
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board

WANTS = 'delay = { program = "11B", mix = "50%", repeats = 40 }'


def stored(*, wait):
    """The messages of the goals in another order than the best, and with another pause."""
    rig = case_of(WANTS).rig
    chart = rig.units["delay"].chart
    program = rig.presets[0].goals[0].program.wire.program
    first = rig.controller.chart.abilities.programs_from
    numbers = [chart.controls[one].number for one in ("mix", "repeats")]
    told = ["3: control 0 = 0", "3: control 32 = 0", f"3: program {program + first}", *wait]
    told += [f"3: control {numbers[0]} = 64", f"3: control {numbers[1]} = 40"]
    return f"messages = {json.dumps(told)}"


def case_of(*rows, delay=DELAY):
    return Case(open_text(board(delay, TO_DELAY, a_preset(1, "One", *rows)).rig).rig)


def test_the_same_rig_holds_what_it_held():
    case = Case(open_text(sample_text(ORCHARD_STREET)).rig)
    assert to_hold(case, case) == held(case)


def test_an_order_that_still_works_may_stay():
    old, new = case_of(stored(wait=["wait 90 ms"]), WANTS), case_of(WANTS)
    assert held(old) != held(new)
    assert to_hold(old, new) == held(old)


def test_one_that_loses_something_may_not():
    old, new = case_of(stored(wait=[]), WANTS), case_of(WANTS)
    assert to_hold(old, new) == held(new)
    preset = new.rig.presets[0]
    assert not does_the_same(old.run(old.rig.presets[0]), new.run(preset))
    assert does_the_same(new.run(preset), new.run(preset))


def test_another_channel_is_another_memory():
    old, new = case_of(WANTS), case_of(WANTS, delay=DELAY.replace("3", "4"))
    assert to_hold(old, new) == held(new) != held(old)


def test_a_new_name_alone_keeps_the_messages():
    old = case_of(WANTS)
    new = Case(open_text(board(DELAY, TO_DELAY, a_preset(1, "Two", WANTS)).rig).rig)
    (before,), (after,) = held(old).values(), to_hold(old, new).values()
    assert before[1:] == after[1:]
    assert (before[0], after[0]) == ("One", "Two")


def test_loops_in_words():
    rig = open_text(sample_text(ORCHARD_STREET)).rig
    assert loops(rig, rig.presets[1]) == ("feet loop-1 out", "feet loop-2 in")
