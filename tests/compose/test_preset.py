"""One preset to the messages that the controller must hold."""

import random
from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path

import pytest

from benchmarks.made_rigs import made_rig
from tests.compose.meeting import copied, unmet
from tests.opening import open_text
from tests.samples.reading import FIRST_BOARD, ORCHARD
from tests.samples.reading import rig as sample_rig
from thruline.compose.goals import Wanted, wanted_of
from thruline.compose.jobs import Effort
from thruline.compose.preset import Sender, compose, job_for, plan, sender_of, with_waits
from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, REVERB, TO_DELAY, a_preset, board
from thruline.rig.controller import OrderAbility
from thruline.rig.whole import Rig
from thruline.timing.run import Run, run_all
from thruline.timing.sending import Sending
from thruline.timing.travel import Travel

GOALS = ('delay = { program = "2A", mix = 64 }', "reverb = { program = 7, decay = 9 }")
RIG = open_text(board(DELAY, REVERB, TO_DELAY, a_preset(1, "Overture", *GOALS)).rig).rig


def sender(rig: Rig = RIG) -> Sender:
    abilities = rig.controller.chart.abilities if rig.controller else None
    assert abilities is not None
    return sender_of(abilities)


def test_the_sender_is_what_the_chart_says() -> None:
    found = sender()
    assert found.means.reorder
    assert found.means.pauses is not None
    assert (found.means.pauses.step_us, found.means.pauses.longest_us) == (5_000, 500_000)
    assert found.gap_us == 150
    small = open_text(board(controller="quarrenden-three").rig).rig
    assert sender(small).means.pauses is None
    assert sender(small).means.programs_first


def test_a_job_is_the_share_of_one_unit_in_wire_time() -> None:
    delay = next(one for one in wanted_of(RIG, RIG.presets[0]) if one.unit.id == "delay")
    job = job_for(delay, sender=sender(), travel=Travel(3, 0), later=0)
    assert job.head_us == (3 + 3 + 2) * 320 + 3 * 150
    assert job.lag_us == 40_000
    assert job.tail_us == 3 + 5_000
    assert [block.full_us for block in job.blocks] == [3 * 320 + 150]


def test_whole_hops_give_a_loading_unit_a_little_more_time() -> None:
    delay = next(one for one in wanted_of(RIG, RIG.presets[0]) if one.unit.id == "delay")
    short = replace(delay, head=delay.head[-1:])
    job = job_for(short, sender=sender(), travel=Travel(0, 2), later=0)
    assert job.lag_us == 40_000 - 2 * 320
    later = job_for(short, sender=sender(), travel=Travel(0, 2), later=700)
    assert later.lag_us == job.lag_us + 700


def test_a_program_change_behind_its_bank_select_is_held_up_at_whole_hops() -> None:
    delay = next(one for one in wanted_of(RIG, RIG.presets[0]) if one.unit.id == "delay")
    job = job_for(delay, sender=sender(), travel=Travel(0, 2), later=0)
    assert job.lag_us == 40_000 - 150  # the sender's own time between the two


@pytest.mark.parametrize("seed", range(6))
def test_a_unit_alone_on_a_line_is_right_when_the_order_says(seed: int) -> None:
    """Over any number of hops that wait for whole messages, with bank select and without."""
    rig = made_rig(seed, units=9, presets=8)
    alone = [
        replace(preset, goals=(goal,))
        for preset, goal in zip(rig.presets, rig.presets[0].goals, strict=False)
    ]
    case = Case(replace(rig, presets=tuple(alone), sweeps=()))
    for preset in case.rig.presets:
        assert case.composed(preset).ordered.makespan_us == case.run(preset).right_us


@pytest.mark.parametrize("seed", range(10))
def test_a_wait_changes_the_job_of_its_unit_alone(seed: int) -> None:
    case = Case(made_rig(seed, units=6, presets=1))
    travels, made = case.board.roads.travels, partial(job_for, sender=case.board.sender)
    wanted, jobs = plan(
        wanted_of(case.rig, case.rig.presets[0]), case.board.sender, travels=travels
    )
    assert with_waits(jobs, wanted, {}, travels=travels, job=made) == jobs
    waiting = with_waits(jobs, wanted, {wanted[1].unit.id: 320}, travels=travels, job=made)
    second = made(wanted[1], travel=travels[wanted[1].unit.id], later=320)
    assert waiting == (jobs[0], second, *jobs[2:]) != jobs


def test_every_message_is_sent_once_and_pieces_stay_together() -> None:
    wanted = wanted_of(RIG, RIG.presets[0])
    made = compose(wanted, sender(), travels={}, effort=Effort.FULL)
    sent = [item.data for item in made.sending.items]
    asked = [item.data for one in wanted for item in (*one.head, *sum(one.groups, ()))]
    assert sorted(sent) == sorted(asked)
    for one in wanted:
        head = [item.data for item in one.head]
        start = sent.index(head[0])
        assert sent[start : start + len(head)] == head


def test_without_choice_the_order_is_that_of_the_channels() -> None:
    rig = open_text(
        board(REVERB, DELAY, a_preset(1, "Overture", *GOALS), controller="quarrenden-three").rig
    ).rig
    listed, _ = plan(wanted_of(rig, rig.presets[0]), sender(rig), travels={})
    assert [one.unit.id for one in listed] == ["delay", "reverb"]
    assert rig.controller is not None
    assert rig.controller.chart.abilities is not None
    assert rig.controller.chart.abilities.order is OrderAbility.PROGRAMS_FIRST


@pytest.mark.parametrize("file", [ORCHARD, FIRST_BOARD], ids=lambda file: file.stem)
def test_every_goal_of_a_sample_rig_is_met(file: Path) -> None:
    assert unmet(Case(sample_rig(file))) == []


@pytest.mark.parametrize("seed", range(8))
def test_every_goal_of_a_made_rig_is_met_and_no_bound_is_broken(seed: int) -> None:
    case = Case(made_rig(seed, units=4 + seed % 3 * 4, presets=10, controls=4))
    assert unmet(case) == []
    for preset in case.rig.presets:
        assert case.composed(preset).ordered.bound_us <= case.run(preset).right_us


@pytest.mark.parametrize("running_status", [False, True])
@pytest.mark.parametrize("seed", range(20))
def test_over_electrical_copies_the_order_takes_what_it_says(
    seed: int, *, running_status: bool
) -> None:
    case = Case(copied(seed, running_status=running_status))
    assert unmet(case) == []
    for preset in case.rig.presets:
        ordered, run = case.composed(preset).ordered, case.run(preset)
        assert ordered.makespan_us == run.right_us
        assert ordered.bound_us <= run.right_us
        assert not ordered.lost


@pytest.mark.parametrize("seed", range(20))
def test_units_of_one_channel_never_end_before_the_bound(seed: int) -> None:
    """Whatever the order: what units save of each other's status bytes is in the bound."""
    rng = random.Random(seed)
    case = Case(copied(seed, running_status=True, channels=2))
    board = case.board
    for preset in case.rig.presets:
        bound_us = case.composed(preset).ordered.bound_us
        assert bound_us <= case.run(preset).right_us
        shuffled = [mixed(case.composed(preset).wanted, rng) for _ in range(20)]
        runs = run_all(board.roads, board.listeners, sendings=shuffled, hand=board.hand)
        assert all(bound_us <= run.right_us for run in runs if is_obeyed(run))


def mixed(wanted: Sequence[Wanted], rng: random.Random) -> Sending:
    """Any order in which each unit gets its program before its controls."""
    pieces = [[*([one.head] if one.head else []), *one.groups] for one in wanted]
    turns = [number for number, own in enumerate(pieces) for _ in own]
    rng.shuffle(turns)
    return Sending(tuple(item for number in turns for item in pieces[number].pop(0)))


def is_obeyed(run: Run) -> bool:
    """Whether no message came too early for its unit."""
    return all(fate.is_good for one in run.receptions.values() for fate in one.fates)
