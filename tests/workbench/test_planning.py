"""Plans in a process of their own."""

import asyncio
import os
import signal

import pytest

from tests.opening import open_text, with_head
from thruline.app.plan_view import plan_json
from thruline.base.errors import CannotUse, WorldFailed
from thruline.outside.samples import AS_FOUND, sample_text
from thruline.proof.example_boards import DELAY, TO_DELAY, a_unit, board
from thruline.workbench import planning
from thruline.workbench.planning import Planner, plan_wish, worked_out

FOUND = open_text(sample_text(AS_FOUND))
SMALL = open_text(with_head(board(DELAY, TO_DELAY, a_unit("next", "bramley-delay")).rig))
CHANNELS = {"plan": "channels"}


async def nobody_has_gone():
    return False


async def everybody_has_gone():
    return True


def run(work):
    """Something done with a planner, which is ended afterwards."""

    async def done():
        planner = Planner()
        try:
            return await work(planner)
        finally:
            planner.stop()

    return asyncio.run(done())


def asked(planner, opened=SMALL, *, rig="small", is_gone=nobody_has_gone, **wish):
    return planner.plan(rig, plan_wish(opened, wish or CHANNELS), is_gone=is_gone)


def test_a_plan_is_the_same_there_as_here():
    there = run(asked)
    assert there == worked_out(plan_wish(SMALL, CHANNELS)) == plan_json(SMALL, CHANNELS)


def test_what_cannot_be_is_said_as_here_and_the_process_goes_on():
    async def work(planner):
        with pytest.raises(CannotUse, match="there is no plan"):
            await asked(planner, plan="holidays")
        return await asked(planner)

    assert run(work)["plan"] == "channels"


def test_a_second_wish_for_a_rig_ends_the_first_and_another_rig_waits():
    async def work(planner):
        first = asyncio.create_task(asked(planner, FOUND, rig="mine"))
        await asyncio.sleep(0.1)
        other = asyncio.create_task(asked(planner, rig="other"))
        second = asyncio.create_task(asked(planner, rig="mine"))
        return await asyncio.gather(first, other, second, return_exceptions=True)

    first, other, second = run(work)
    assert isinstance(first, CannotUse)
    assert "meanwhile" in first.says
    assert other == second


def test_while_one_is_worked_out_everything_else_goes_on():
    async def work(planner):
        planning_it = asyncio.create_task(asked(planner, FOUND))
        turns = 0
        while not planning_it.done():
            await asyncio.sleep(0.01)
            turns += 1
        return turns

    assert run(work) > 10


def test_what_nobody_waits_for_is_ended(monkeypatch):
    monkeypatch.setattr(planning, "ASK_SECONDS", 0.0)
    assert run(lambda planner: asked(planner, is_gone=everybody_has_gone)) is None


def test_a_process_that_ended_is_begun_again():
    async def work(planner):
        await asked(planner)
        os.kill(planner._process.pid, signal.SIGKILL)
        planner._process.join(10)
        with pytest.raises(WorldFailed, match="ask for it again"):
            await asked(planner)
        return await asked(planner)

    assert run(work)["plan"] == "channels"
