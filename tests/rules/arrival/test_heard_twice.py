import pytest

from tests.rules.looking import found
from thruline.proof.example_boards import DELAY, a_cable, a_unit, board
from thruline.proof.rule import Example
from thruline.proof.rules.arrival.heard_twice import RULE

SIEVE = """
format = 1
[chart]
id = "sieve"
maker = "Example"
model = "Sieve"
kind = "MIDI filter"
[[socket]]
id = "midi-in"
kind = "midi-in"
connector = "din5"
isolated = true
[[socket]]
id = "midi-out"
kind = "midi-out"
connector = "din5"
[[output]]
socket = "midi-out"
ways = ["thru-soft"]
latency-us = 300
blocks = {blocks}
"""


def two_ways(blocks: str) -> Example:
    rig = board(
        DELAY,
        a_unit("merge", "kidd-merge"),
        a_unit("box", "sieve"),
        a_cable("feet.midi-out-1", "merge.in-1"),
        a_cable("feet.midi-out-2", "box.midi-in"),
        a_cable("box.midi-out", "merge.in-2"),
        a_cable("merge.output", "delay.midi-in"),
    ).rig
    return Example(rig, charts=(SIEVE.format(blocks=blocks),))


@pytest.mark.parametrize("blocks", ["[]", '["program"]', '["control", "clock"]'])
def test_whatever_comes_on_two_ways_is_heard_twice(blocks: str) -> None:
    (finding,) = found(RULE, two_ways(blocks))
    assert "hears the same messages 2 times" in finding.says


def test_a_way_that_lets_nothing_of_it_through_is_none() -> None:
    assert found(RULE, two_ways('["program", "control"]')) == []
