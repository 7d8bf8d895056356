"""Sendings through rigs, for tests of what is told about them."""

from thruline.path.hearing import read_hearing
from thruline.path.network import read_network
from thruline.timing.receive import listener_of
from thruline.timing.roads import roads_of
from thruline.timing.run import Hand, run_one
from thruline.timing.sending import Item, Purpose, Sending
from thruline.timing.trail import Ground

HAND = Hand(gap_us=0, running_status=False)


def ground_of(rig, hand=HAND):
    """What messages of the rig's controller go over."""
    wires = read_network(rig)
    return Ground(
        wires=wires,
        hearing=read_hearing(wires),
        roads=roads_of(wires, rig.controller),
        controller=rig.controller,
        hand=hand,
    )


def run_over(ground, *items):
    """These messages, played and received."""
    units = ground.wires.units.values()
    listeners = [listener_of(unit) for unit in units if unit.chart.listens]
    return run_one(ground.roads, listeners, Sending(items), hand=ground.hand)


def program(unit, channel, number=0, **more):
    """A program change that is meant for a unit."""
    data = bytes((0xC0 + channel - 1, number))
    return Item(data=data, purpose=Purpose.PROGRAM, unit=unit, part="program", **more)


def control(unit, channel, number=14, value=64, **more):
    """A control change that is meant for a unit."""
    data = bytes((0xB0 + channel - 1, number, value))
    return Item(data=data, purpose=Purpose.CONTROL, unit=unit, part="mix", **more)


def full_chart(**more):
    """What `make_chart` takes for a unit with programs, a control and a time of loading."""
    return {
        "programs": {"slots": {"count": 100, "first": 1}},
        "control": [{"id": "mix", "name": "Mix", "number": 14}],
        "settle": {"ms": 20, "controls": "lost"},
    } | more
