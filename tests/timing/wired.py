"""Rigs wired at random, sound but for what is filtered: a controller, boxes, units behind them."""

import random
from typing import Any

from tests.rigs import (
    make_box,
    make_cable,
    make_chart,
    make_controller,
    make_rig,
    make_unit,
    midi_in,
    midi_out,
)
from tests.timing import reference
from thruline.path.network import read_network
from thruline.rig.whole import Rig
from thruline.timing.roads import Roads, roads_of
from thruline.timing.run import Hand, Run, listeners_of, run_all
from thruline.timing.sending import Item, Purpose, Sending, ready_times

HANDS = [Hand(gap_us=0, running_status=False), Hand(gap_us=300, running_status=True)]


def wired(seed: int) -> Rig:
    """A controller with one or two outputs; each further box hears one or two that stand before."""
    rng = random.Random(seed)
    outs = [midi_out(f"out-{number}") for number in range(rng.choice([1, 2]))]
    feet = make_controller("feet", outs, output=[_own(out["id"], rng) for out in outs])
    free = [f"feet.{out['id']}" for out in outs]
    units, cables, charts = [make_unit("feet", "feet")], [], [feet]
    for number in range(rng.randrange(1, 7)):
        box = f"box-{number}"
        chart = _chart(box, rng)
        for socket in (one["id"] for one in chart["socket"] if one["kind"] == "midi-in"):
            if free:
                source = free.pop(rng.randrange(len(free)))
                cables.append(make_cable(source, f"{box}.{socket}"))
        free += [f"{box}.{one['id']}" for one in chart["socket"] if one["kind"] == "midi-out"]
        units.append(make_unit(box, box, channel=rng.choice([1, 1, 2])))
        charts.append(chart)
    return make_rig(units, cables, charts)


def _own(socket: str, rng: random.Random) -> dict[str, Any]:
    return {"socket": socket, "ways": ["own"], "running-status": rng.random() < 0.5}


def _chart(box: str, rng: random.Random) -> dict[str, Any]:
    """A split, a merge, or a unit that loads for a while."""
    match rng.randrange(4):
        case 0:
            return make_box(box, 1, rng.randrange(2, 4))
        case 1:
            sockets = [midi_in("in-1"), midi_in("in-2"), midi_out()]
            return make_chart(box, sockets, output=[_soft("midi-out", rng)])
        case _:
            output = [_soft("midi-out", rng)] if rng.random() < 0.7 else [_wire()]
            settle = {
                "ms": rng.choice([0, 5, 20]),
                "controls": rng.choice(["lost", "held", "obeyed"]),
            }
            controls = [{"id": "mix", "name": "Mix", "number": 14}]
            slots = {"slots": {"count": 128, "first": 0}}
            return make_chart(box, output=output, settle=settle, control=controls, programs=slots)


def _wire() -> dict[str, Any]:
    return {"socket": "midi-out", "ways": ["thru-wire"], "from": ["midi-in"]}


def _soft(socket: str, rng: random.Random) -> dict[str, Any]:
    return {
        "socket": socket,
        "ways": ["thru-soft"],
        "latency-us": rng.choice([0, 100, 900]),
        "by": rng.choice(["message", "message", "byte"]),
        "blocks": rng.choice([[], [], ["program"], ["control"], ["own-channel"]]),
        "running-status": rng.random() < 0.4,
    } | ({"buffer-bytes": rng.choice([6, 20])} if rng.random() < 0.3 else {})


def sendings(seed: int) -> list[Sending]:
    """Program and control changes on the channels of `wired`, an odd message now and then."""
    rng = random.Random(seed)
    return [
        Sending(tuple(_item(rng) for _ in range(rng.randrange(12))))
        for _ in range(rng.randrange(5))
    ]


def _item(rng: random.Random) -> Item:
    channel = rng.choice([0, 0, 0, 0, 1, 4])
    data = rng.choice(
        [
            bytes((0xC0 | channel, rng.randrange(128))),
            bytes((0xB0 | channel, rng.choice([14, 15]), rng.randrange(128))),
            bytes((0xB0 | channel, 14, rng.randrange(128))),
            rng.choice([b"\xf0\x7d\x01\xf7", b"\xf8"]),
        ]
    )
    return Item(data, Purpose.OTHER, pause_us=rng.choice([0, 0, 0, 2000]))


def roads(rig: Rig) -> Roads:
    return roads_of(read_network(rig), rig.controller)


def played(rig: Rig, many: list[Sending], *, hand: Hand) -> tuple[Run, ...]:
    return run_all(roads(rig), listeners_of(rig.units.values()), sendings=many, hand=hand)


def arrivals_by_hand(rig: Rig, sending: Sending, *, hand: Hand) -> dict[str, list[tuple[int, ...]]]:
    """For every unit what ends at its inputs, as the plain event loop has it: place, start, end."""
    road = roads(rig)
    times = ready_times(sending.items, gap_us=hand.gap_us, running_status=hand.running_status)
    rows = [
        (time, len(item.data), item.data[0], place)
        for place, (time, item) in enumerate(zip(times, sending.items, strict=True))
    ]
    tapes = reference.play(road.network.lines, [rows])
    return {
        unit: sorted(
            (row[:3] for line in lines for row in tapes[line].rows()), key=lambda row: row[2]
        )
        for unit, lines in road.inputs.items()
    }
