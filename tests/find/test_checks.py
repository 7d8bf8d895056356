from dataclasses import replace

import pytest

from tests.find.boards import field, meant
from thruline.find.checks import checks_for
from thruline.find.trials import Place, Trial
from thruline.proof.case import Case


def _ids(**more):
    return {one.id for one in checks_for(meant(), field().suspects, **more)}


def test_a_board_can_be_looked_at_in_many_ways():
    assert {
        "glance 1", "look box-2 1", "lamp box-2 1", "straight box-2 1", "send box-2 1",
        "listen box-2 1", "repeat box-2 1", "swap box-1.midi-out>box-2.midi-in",
        "tester feet.midi-out>box-1.midi-in", "menu box-1.midi-out", "channel box-3",
        "power box-3", "supply box-1", "entry box-1", "written", "pedal feet.exp-1", "loopback",
        "tempo box-1",
    } <= _ids()  # fmt: skip


def test_on_a_stage_there_is_no_meter_and_no_computer():
    stage = _ids(place=Place.STAGE)
    assert not any(one.startswith(("supply", "listen", "send", "tester")) for one in stage)
    assert "look box-2 1" in stage


def test_costs_can_be_told_by_whoever_knows_better():
    mine = {
        one.id: one.seconds
        for one in checks_for(meant(), field().suspects, seconds={Trial.LOOK: 99.0})
    }
    assert mine["look box-1 1"] == 99
    assert mine["glance 1"] == 3 + 3


def test_a_question_says_what_should_be_there_and_where_to_find_it():
    asks = {one.id: one.asks for one in field().checks}
    assert "It should show program 40, Mix 42, Trails on." in asks["look box-2 1"]
    assert asks["channel box-3"].endswith("Is it 4?")
    assert "(MENU > receive)" in asks["menu box-1.receive"]
    assert "channel 2: program " in asks["entry box-1"]
    assert not any("{" in words for words in asks.values())


@pytest.mark.parametrize(
    ("first", "says"),
    [(0, "program 19"), (1, "program 20")],
)
def test_what_to_read_on_the_controller_is_in_its_own_numbers(first, says):
    whole = meant()
    feet = whole.rig.controller
    abilities = replace(feet.chart.abilities, programs_from=first)
    counting = replace(feet, chart=replace(feet.chart, abilities=abilities))
    units = {**whole.rig.units, feet.id: counting}
    there = replace(whole, case=Case(replace(whole.rig, controller=counting, units=units)))
    asks = {one.id: one.asks for one in checks_for(there, field().suspects)}["entry box-1"]
    assert f"channel 2: {says}" in asks
    assert ("its screen counts programs from 1" in asks) is bool(first)
