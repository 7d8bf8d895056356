"""Seeded rigs as nobody would build them: anything plugged into anything, from the sample charts.

Nothing in them has to make sense. Whatever a person might write by mistake may stand here: units
of one id, cables between two outputs or from a socket to itself, labels and values that do not
exist, sweeps of units without MIDI, a controller that is missing, or presets that ask for it.
"""

import random
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache
from typing import Any

from thruline.app.load import open_chart
from thruline.document.write import document_text
from thruline.outside.shelves import sample_shelf
from thruline.rig.chart import Chart, Setting
from thruline.rig.programs import labels
from thruline.rig.socket import CONTACTS, Socket, SocketKind, Wiring
from thruline.workshop.shelf import find_chart

Plain = dict[str, Any]
WIRINGS: Sequence[Any] = ("straight", "crossed", "type-a", "type-b", {"4": "5"}, {"tip": "ring"})
CURVES: Sequence[Any] = ("linear", "audio", "late", "s", [[0, 0], [50, 100], [100, 20]])
WRITTEN: Sequence[Any] = (
    0,
    64,
    127,
    128,
    -1,
    2.5,
    "50%",
    "120%",
    "on",
    "off",
    "press",
    "12 dB",
    "?",
)
LABELS = ("1", "1A", "11B", "BYP", "000", "0", "no such label")


@cache
def sample_charts() -> Mapping[str, Chart]:
    """Every packaged chart, by id."""
    shelf = sample_shelf()
    found = (find_chart([shelf], chart_id) for chart_id in shelf.ids())
    return {one.id: one for one in (open_chart(sheet) for sheet in found if sheet is not None)}


def odd_text(seed: int) -> str:
    """The text of an odd rig."""
    return document_text(odd_document(random.Random(seed)))


def odd_document(rng: random.Random) -> Plain:
    """The plain data of an odd rig."""
    units = _units(rng)
    known = [unit["id"] for unit in units]
    jacks = _jacks(units)
    document: Plain = {
        "format": 1,
        "rig": {
            "name": "Odd",
            "controller": "feet" if rng.random() < 0.9 else rng.choice([*known, "nobody"]),
            "slowest-change-ms": rng.choice([1, 50, 250]),
        },
        "unit": units,
        "cable": [
            *(_sound_cables(rng, units) if rng.random() < 0.9 else ()),
            *(_cable(rng, jacks) for _ in range(rng.choice([0, 0, 1, 2, len(units)])) if jacks),
        ],
        "preset": [_preset(rng, units) for _ in range(rng.choice([0, 1, 2, 5, 9]))],
        "sweep": [_sweep(rng, units, jacks) for _ in range(rng.choice([0, 0, 1, 3])) if jacks],
        "song": [_song(rng) for _ in range(rng.choice([0, 0, 1, 3]))],
        "accept": [_acceptance(rng, known) for _ in range(rng.choice([0, 0, 1, 2]))],
    }
    if rng.random() < 0.6:
        document["audio"] = {"path": _audio(rng, units)}
    return {key: value for key, value in document.items() if value != []}


def edited(document: Plain, rng: random.Random) -> Plain:
    """The same rig after one change of any kind; the document given is left as it is."""
    changed = {**document}
    edit = rng.choice(_EDITS)
    edit(changed, rng)
    return {key: value for key, value in changed.items() if value != []}


def _units(rng: random.Random) -> list[Plain]:
    charts = sample_charts()
    controllers = [one.id for one in charts.values() if one.abilities is not None]
    listening = [one.id for one in charts.values() if one.listens]
    units = [_unit(rng, "feet", rng.choice(controllers))] if rng.random() < 0.9 else []
    units += [
        _unit(rng, f"unit-{number}", rng.choice(listening if rng.random() < 0.6 else list(charts)))
        for number in range(rng.randrange(10))
    ]
    if rng.random() < 0.2:
        rng.shuffle(units)
    units = units or [_unit(rng, "alone", rng.choice(list(charts)))]
    if rng.random() < 0.05:
        units.append({**units[0]})
    return units


def _unit(rng: random.Random, unit_id: str, chart_id: str) -> Plain:
    chart = sample_charts()[chart_id]
    unit: Plain = {"id": unit_id, "chart": chart_id}
    if rng.random() < 0.7:
        unit["channel"] = rng.choice([1, 1, 2, 3, 4, 5, 6, 7, 8, 16])
    if rng.random() < 0.1:
        unit["sent-on"] = rng.randrange(1, 17)
    settings = {
        one.id: rng.choice(
            [*one.values, *one.values, *one.values, *_good(chart, one), "no such choice"]
        )
        for one in chart.settings.values()
        if rng.random() < 0.8
    }
    if rng.random() < 0.05:
        settings["no-such-setting"] = "on"
    return {**unit, "settings": settings} if settings else unit


def _good(chart: Chart, setting: Setting) -> list[str]:
    """The values with which things work, many times over, so that they are mostly chosen."""
    works = {"own", "merge"} if chart.abilities else {"thru-wire", "thru-soft", "merge"}
    meant = [one for one in setting.values if setting.means.get(one, one) in works | {"on"}]
    return meant * 12


def _jacks(units: Sequence[Plain]) -> list[tuple[str, str]]:
    """Every socket with its connector."""
    return [
        (f"{unit['id']}.{socket.id}", socket.connector)
        for unit in units
        for socket in sample_charts()[unit["chart"]].sockets.values()
    ]


def _sound_cables(rng: random.Random, units: Sequence[Plain]) -> Iterator[Plain]:
    """Most inputs joined with an output of a unit before, by a cable that fits."""
    free: list[tuple[str, Socket]] = []
    for unit in units:
        sockets = sample_charts()[unit["chart"]].sockets.values()
        for socket in sockets:
            fitting = [one for one in free if one[1].kind is _FED_BY.get(socket.kind)]
            if fitting and rng.random() < 0.9:
                chosen = rng.choice(fitting)
                yield _sound_cable(chosen, (f"{unit['id']}.{socket.id}", socket))
                if rng.random() < 0.9:
                    free.remove(chosen)
        free += [(f"{unit['id']}.{socket.id}", socket) for socket in sockets]


def _sound_cable(start: tuple[str, Socket], stop: tuple[str, Socket]) -> Plain:
    wirings = {start[1].wiring, stop[1].wiring}
    wiring = "type-b" if Wiring.TYPE_B in wirings else "type-a"
    if start[1].connector.startswith("trs") and stop[1].connector.startswith("trs"):
        wiring = "crossed" if len(wirings) > 1 else "straight"
    ends = f"{start[1].connector}/{stop[1].connector}"
    plain = start[1].connector == stop[1].connector and wiring != "crossed"
    return {"from": start[0], "to": stop[0], "ends": ends, "length": 300} | (
        {} if plain else {"wiring": wiring}
    )


_FED_BY = {
    SocketKind.MIDI_IN: SocketKind.MIDI_OUT,
    SocketKind.EXPRESSION_IN: SocketKind.EXPRESSION_OUT,
    SocketKind.POWER_IN: SocketKind.POWER_OUT,
    SocketKind.USB: SocketKind.USB,
}
"""The kind of socket that feeds another."""


def _cable(rng: random.Random, jacks: Sequence[tuple[str, str]]) -> Plain:
    """Mostly between MIDI sockets with plugs that fit, as otherwise nothing would ever arrive."""
    midi = [
        jack for jack in jacks if "midi" in jack[0] or jack[0].split(".")[1] in ("usb", "a", "b")
    ]
    chosen = midi if midi and rng.random() < 0.75 else jacks
    (start, first), (stop, second) = rng.choice(chosen), rng.choice(chosen)
    if rng.random() < 0.6 and "in" in start.split(".")[1].split("-"):
        (start, first), (stop, second) = (stop, second), (start, first)
    if rng.random() < 0.1:
        first = rng.choice([*CONTACTS, "no-such-plug"])
    if rng.random() < 0.03:
        stop = rng.choice(["nobody.midi-in", f"{stop.split('.')[0]}.no-such-socket"])
    cable: Plain = {"from": start, "to": stop, "ends": f"{first}/{second}"}
    if rng.random() < 0.3:
        cable["wiring"] = rng.choice(WIRINGS)
    if rng.random() < 0.5:
        cable["length"] = rng.choice([10, 300, 20_000])
    return cable


def _preset(rng: random.Random, units: Sequence[Plain]) -> Plain:
    preset: Plain = {
        "number": rng.choice([0, 200, *range(1, 13), *range(1, 13)]),
        "name": _name(rng),
    }
    for unit in units:
        if rng.random() < 0.6:
            preset[unit["id"]] = _goal(rng, sample_charts()[unit["chart"]])
    if rng.random() < 0.05:
        preset["nobody"] = "1"
    if rng.random() < 0.3:
        preset["messages"] = [_message(rng, units) for _ in range(rng.randrange(12))]
    return preset


def _name(rng: random.Random) -> str:
    return rng.choice(["Cue", "Storm", "A name that is longer than any display of a controller"])


def _goal(rng: random.Random, chart: Chart) -> Plain | str | int:
    if rng.random() < 0.15:
        return rng.choice(["in", "out", *LABELS, 3])
    goal: Plain = {}
    if rng.random() < 0.6:
        goal["program"] = _label(rng, chart)
    if rng.random() < 0.2:
        goal["loop"] = rng.choice(["in", "out", "sideways"])
    for control in chart.controls.values():
        if rng.random() < 0.25:
            named = [zone.label for zone in control.zones]
            good = [rng.randint(control.low, control.high), *named]
            goal[control.id] = rng.choice(good if rng.random() < 0.8 else WRITTEN)
    if rng.random() < 0.03:
        goal["no-such-control"] = 3
    return goal


def _label(rng: random.Random, chart: Chart) -> str:
    if chart.programs is None or rng.random() < 0.1:
        return rng.choice(LABELS)
    return rng.choice(list(labels(chart.programs))[:300])


def _message(rng: random.Random, units: Sequence[Plain]) -> str:
    unit = rng.choice(units)
    channel = unit.get("channel", 1) if rng.random() < 0.8 else rng.choice([1, 2, 16, 17])
    known = [one.number % 128 for one in sample_charts()[unit["chart"]].controls.values()]
    match rng.randrange(6):
        case 0 | 1:
            return f"{channel}: program {rng.choice([0, 1, 5, 127, 128, 129])}"
        case 2:
            number = rng.choice([0, 32, 6, 38, 98, 99, 100, 101, 120, 123, 127])
            return f"{channel}: control {number} = {rng.choice([0, 1, 64, 127])}"
        case 3:
            return f"{channel}: control {rng.choice([*known, 7])} = {rng.randrange(128)}"
        case 4:
            return f"wait {rng.choice([0, 1, 20, 300])} ms"
        case _:
            return rng.choice(
                ["bytes F8", "bytes F0 7D 01 F7", "bytes 90 40 40", "bytes F8 F8", "?"]
            )


def _sweep(rng: random.Random, units: Sequence[Plain], jacks: Sequence[tuple[str, str]]) -> Plain:
    pedals = [name for name, _ in jacks if "exp" in name]
    moves = [_move(rng, rng.choice(units)) for _ in range(rng.randrange(1, 5))]
    return {
        "name": rng.choice(["Swell", "Bend", "Wash"]),
        "pedal": rng.choice(pedals) if pedals and rng.random() < 0.9 else rng.choice(jacks)[0],
        "presets": rng.choice(["all", "all", [1, 2], [3], [77], []]),
        "moves": moves,
    }


def _move(rng: random.Random, unit: Plain) -> Plain:
    controls = list(sample_charts()[unit["chart"]].controls)
    ends = [0, 127, "0%", "100%", "80%", *WRITTEN]
    return {
        "unit": unit["id"],
        "control": rng.choice([*controls, *controls, "no-such-control"]),
        "heel": rng.choice(ends),
        "toe": rng.choice(ends),
        "curve": rng.choice(CURVES),
    }


def _song(rng: random.Random) -> Plain:
    song: Plain = {
        "name": rng.choice(["Opening", "Finale"]),
        "presets": [rng.choice([0, 1, 2, 3, 4, 77]) for _ in range(rng.randrange(1, 4))],
    }
    return {**song, "tempo": rng.choice([20, 120, 400])} if rng.random() < 0.7 else song


def _acceptance(rng: random.Random, known: Sequence[str]) -> Plain:
    places = [f"unit[{unit}]" for unit in known] + ["preset[1].name", "rig.controller"]
    rules = ["power.unit-without-power", "document.name-too-long", "document.acceptance-stale"]
    return {"finding": f"{rng.choice(rules)} at {rng.choice(places)}", "reason": "as it is"}


def _audio(rng: random.Random, units: Sequence[Plain]) -> list[str]:
    path = ["guitar"]
    for unit in units:
        loops = list(sample_charts()[unit["chart"]].loops)
        if loops and rng.random() < 0.5:
            inside = ", ".join(one["id"] for one in rng.sample(list(units), 1))
            path.append(f"{unit['id']}.{rng.choice([*loops, 'no-such-loop'])}[{inside}]")
        elif rng.random() < 0.7:
            path.append(unit["id"])
    return [*path, *rng.choice([[], ["nobody"], ["nobody", "amp"], ["amp"]])]


Edit = Callable[[Plain, random.Random], None]


def _replaced(key: str, make: Callable[[random.Random, Plain], Plain]) -> Edit:
    """An edit that puts another entry in the place of one, takes one away, or adds one."""

    def edit(document: Plain, rng: random.Random) -> None:
        entries = list(document.get(key, ()))
        place = rng.randrange(len(entries) + 1)
        if place < len(entries) and rng.random() < 0.3:
            del entries[place]
        elif place < len(entries) and rng.random() < 0.2:
            entries.insert(0, entries.pop(place))
        else:
            entries[place : place + 1] = [make(rng, document)]
        document[key] = entries

    return edit


def _edit_unit(document: Plain, rng: random.Random) -> None:
    units = list(document["unit"])
    place = rng.randrange(len(units))
    units[place] = _unit(rng, units[place]["id"], units[place]["chart"])
    document["unit"] = units


def _edit_goal(document: Plain, rng: random.Random) -> None:
    presets = list(document.get("preset", ()))
    if not presets:
        return
    place, unit = rng.randrange(len(presets)), rng.choice(document["unit"])
    goal = _goal(rng, sample_charts()[unit["chart"]])
    presets[place] = {**presets[place], unit["id"]: goal}
    document["preset"] = presets


_EDITS: Sequence[Edit] = (
    _edit_unit,
    _edit_goal,
    _edit_goal,
    _replaced("preset", lambda rng, document: _preset(rng, document["unit"])),
    _replaced("cable", lambda rng, document: _cable(rng, _jacks(document["unit"]))),
    _replaced(
        "sweep", lambda rng, document: _sweep(rng, document["unit"], _jacks(document["unit"]))
    ),
    _replaced("song", lambda rng, _: _song(rng)),
    _replaced(
        "accept", lambda rng, document: _acceptance(rng, [one["id"] for one in document["unit"]])
    ),
)
