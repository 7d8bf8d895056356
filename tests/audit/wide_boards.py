"""A board whose pedal moves a plain control, a 14-bit pair and two parameters."""

from tests.rigs import (
    make_chain,
    make_chart,
    make_controller,
    make_rig,
    make_unit,
    midi_out,
    socket,
)

CONTROLS = [
    {"id": "level", "name": "Level", "number": 7},
    {"id": "time", "name": "Time", "number": 29, "message": "cc14", "high": 16383},
    {"id": "tune", "name": "Tune", "number": 300, "message": "nrpn", "high": 16383},
    {"id": "range", "name": "Range", "number": 2, "message": "rpn"},
]


def wide_board(*, on_recall=False, presets=4):
    """The rig: preset 2 sets the pair by itself; the others leave it to the pedal."""
    pedal = {"socket": "exp-1", "moves": 4, "curves": ["linear"], "on-recall": on_recall}
    sockets = [midi_out(), socket("exp-1", "expression-in", "trs-6.35")]
    feet = make_controller("braeburn", sockets, pedal=[pedal])
    box = make_chart(
        "x", ways=("merge",), programs={"slots": {"count": 128, "first": 1}}, control=CONTROLS
    )
    rows = [
        {"number": number, "name": f"Cue {number}", "a": {"program": number}}
        for number in range(1, presets + 1)
    ]
    rows[1]["a"] = {"program": 2, "time": 5000}
    moves = [
        {"unit": "a", "control": "level", "heel": 0, "toe": 127},
        {"unit": "a", "control": "time", "heel": 100, "toe": 9000},
        {"unit": "a", "control": "tune", "heel": 8192, "toe": 12000},
        {"unit": "a", "control": "range", "heel": 24, "toe": 2},
    ]
    sweep = {
        "name": "Wide",
        "pedal": "feet.exp-1",
        "presets": [one["number"] for one in rows if one["number"] != 2],
        "moves": moves,
    }
    units = [make_unit("feet", "braeburn"), make_unit("a", "x", channel=2)]
    return make_rig(units, make_chain("feet", "a"), [feet, box], preset=rows, sweep=[sweep])
