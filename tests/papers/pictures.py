"""Timing charts to be drawn, of boards of any size."""

from tests.rigs import (
    make_cable,
    make_chain,
    make_chart,
    make_controller,
    make_rig,
    make_unit,
    midi_out,
)
from tests.timing.played import control, full_chart, ground_of, program, run_over
from thruline.timing.picture import Told, picture_of
from thruline.timing.rows import LoopState

APPLES = ("Braeburn", "Egremont", "Bramley", "Laxton", "Pippin", "Jonagold", "Discovery", "Gala")


def board(units, *, lines=1, way="thru-soft", name="{}"):
    """A controller with one or two lines of units behind it, every third one a plain thru."""
    outs = [midi_out(f"out-{number + 1}") for number in range(lines)]
    charts = [make_controller(sockets=outs), make_chart(**full_chart(ways=(way,)))]
    charts.append(make_chart("wire", **full_chart(ways=("thru-wire",))))
    names = [f"u{number}" for number in range(units)]
    rows = [make_unit("feet", "braeburn")]
    for number, unit in enumerate(names):
        chart = "wire" if number % 3 == 1 else "bramley"
        says = name.format(APPLES[number % len(APPLES)])
        rows.append(make_unit(unit, chart, channel=number % 16 + 1, name=says))
    cables = []
    for number in range(lines):
        part = names[number * units // lines : (number + 1) * units // lines]
        cables += [make_cable(f"feet.out-{number + 1}", f"{part[0]}.midi-in"), *make_chain(*part)]
    return make_rig(rows, cables, charts)


def picture(units=3, *, controls=1, pause_ms=25, title="press 1", loop=None, least=None, **more):
    """A program for every unit and, after a pause, so many control changes for each."""
    rig = board(units, **more)
    items = [program(f"u{n}", n % 16 + 1) for n in range(units)]
    items += [
        control(f"u{n}", n % 16 + 1, 14, k, pause_us=pause_ms * 1000 if not (n or k) else 0)
        for n in range(units)
        for k in range(controls)
    ]
    ground = ground_of(rig)
    loops = [LoopState("u0", "feet", "loop 1", loop)] if loop else []
    return picture_of(run_over(ground, *items), ground, Told(title=title, loops=loops, least=least))
