"""Small boards to audit: a controller, three units in a line, a sweep, and an earlier version."""

from functools import cache

from tests.rigs import (
    make_cable,
    make_chain,
    make_chart,
    make_controller,
    make_rig,
    make_unit,
    midi_out,
    socket,
)
from thruline.audit.meant import Meant, meant_by
from thruline.proof.case import Case

TAPS = ("feet.midi-out", "c.midi-out")


def _charts():
    sockets = [midi_out(), socket("exp-1", "expression-in", "trs-6.35")]
    feet = make_controller(
        "braeburn", sockets, pedal=[{"socket": "exp-1", "moves": 4, "curves": ["linear"]}]
    )
    boxes = [
        make_chart(
            name,
            ways=("merge",),
            programs={"slots": {"count": 128, "first": 1}},
            control=[
                {"id": "mix", "name": "Mix", "number": 20 + place},
                {"id": "level", "name": "Level", "number": 40 + place},
            ],
        )
        for place, name in enumerate("xyz")
    ]
    return [feet, *boxes]


def board(presets=12, *, changed=()):
    """The rig; presets among `changed` ask for other things."""
    units = [make_unit("feet", "braeburn")]
    units += [
        make_unit(name, chart, channel=place)
        for place, (name, chart) in enumerate(zip("abc", "xyz", strict=True), 2)
    ]
    rows = [
        {
            "number": number,
            "name": f"Cue {number}",
            "a": {"program": number, "mix": (number * 7 + (number in changed) * 30) % 128},
            "b": {"program": 2 * number + 1, "mix": 3 * number},
            "c": {"program": 100 - number, "mix": 64 + number},
        }
        for number in range(1, presets + 1)
    ]
    sweep = {
        "name": "Swell",
        "pedal": "feet.exp-1",
        "presets": "all",
        "moves": [{"unit": "b", "control": "level", "heel": 10, "toe": 100}],
    }
    return make_rig(units, make_chain("feet", "a", "b", "c"), _charts(), preset=rows, sweep=[sweep])


@cache
def plan(*taps: str) -> Meant:
    """The plan of the board, with two presets changed since the earlier version."""
    return meant_by(Case(board()), taps or TAPS, before=Case(board(changed=(3, 5))))


__all__ = ["TAPS", "board", "make_cable", "plan"]
