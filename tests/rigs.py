"""Small rigs for tests, built over the real road: plain documents, read and resolved.

    rig = make_rig(
        [make_unit("feet", "braeburn"), make_unit("delay", "bramley", channel=3)],
        [make_cable("feet.midi-out", "delay.midi-in")],
        [make_controller("braeburn"), make_chart("bramley")],
    )

All `make_` functions but `make_rig` and `make_line` return documents as plain data, so that a test
can add any key of the format by name (`settle={"ms": 120}`) or change what it gets. Makers and
models are invented.
"""

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from typing import Any

from thruline.document.chart_shape import ChartShape
from thruline.document.rig_shape import RigShape
from thruline.rig.chart import Chart
from thruline.rig.read_chart import read_chart
from thruline.rig.resolve import resolve
from thruline.rig.whole import Rig

Document = dict[str, Any]


def midi_in(socket_id: str = "midi-in", connector: str = "din5", **more: Any) -> Document:
    """A MIDI input; isolated unless told otherwise, a jack wired as type A."""
    return socket(
        socket_id, "midi-in", connector, **{"isolated": True, **_wired(connector), **more}
    )


def midi_out(socket_id: str = "midi-out", connector: str = "din5", **more: Any) -> Document:
    """A MIDI output; a jack is wired as type A unless told otherwise."""
    return socket(socket_id, "midi-out", connector, **{**_wired(connector), **more})


def _wired(connector: str) -> Document:
    if connector.startswith("ts"):
        return {"wiring": "ts"}
    return {"wiring": "type-a"} if connector.startswith("trs") else {}


def socket(socket_id: str, kind: str, connector: str, **more: Any) -> Document:
    """Any other socket."""
    return _merged({"id": socket_id, "kind": kind, "connector": connector}, more)


def make_chart(
    chart_id: str = "bramley",
    sockets: Sequence[Document] | None = None,
    *,
    ways: Sequence[str] = ("thru-soft",),
    **more: Any,
) -> Document:
    """A chart that listens on a channel, by default with one MIDI IN and one MIDI OUT on DIN.

    Every MIDI OUT can be set to `ways`, by a setting of its own name if there are several; the
    first is the factory's. `output` or `setting` among `more` take the place of what is made here.
    """
    rows = [midi_in(), midi_out()] if sockets is None else list(sockets)
    outs = [row["id"] for row in rows if row["kind"] == "midi-out"]
    made: Document = {
        "format": 1,
        "chart": {"id": chart_id, "maker": "Orchard", "model": chart_id.title(), "kind": "effect"},
        "socket": rows,
        "output": [{"socket": out, "ways": list(ways)} for out in outs],
        "setting": [make_way_setting(out, ways) for out in outs] if len(ways) > 1 else [],
        "channel": {"factory": 1},
        "receive": {"program": True, "control": True, "clock": True, "system-exclusive": True},
    }
    return _merged(made, more)


def make_way_setting(out: str, ways: Sequence[str]) -> Document:
    """The menu item that decides what an output does."""
    return {
        "id": out,
        "name": out.upper(),
        "values": list(ways),
        "factory": ways[0],
        "where": "GLOBAL > MIDI",
        "governs": "output",
        "socket": out,
    }


def make_controller(
    chart_id: str = "braeburn", sockets: Sequence[Document] | None = None, **more: Any
) -> Document:
    """A foot controller's chart: one MIDI OUT on DIN with its own messages, 128 presets."""
    rows = [midi_out()] if sockets is None else sockets
    made = make_chart(chart_id, rows, ways=more.pop("ways", ("own",)), channel=None)
    return _merged(made, {"controller": {"presets": 128}, **more})


def make_box(
    chart_id: str, ins: int, outs: int, *, way: str = "thru-wire", **more: Any
) -> Document:
    """A box that only passes on: a split, a merge or a router; sockets `in-1`..., `out-1`..."""
    sockets = [midi_in(f"in-{number + 1}") for number in range(ins)]
    sockets += [midi_out(f"out-{number + 1}") for number in range(outs)]
    return make_chart(chart_id, sockets, ways=(way,), **{"channel": None, "receive": {}, **more})


def make_adapter(
    chart_id: str, contacts: Mapping[str, str], *, connectors: tuple[str, str] = ("din5", "trs-3.5")
) -> Document:
    """A passive adapter: its sockets `a` and `b`, contacts of `a` joined with contacts of `b`."""
    first, second = connectors
    sockets = [socket("a", "midi", first), socket("b", "midi", second)]
    bond = {"from": "a", "to": "b", "contacts": dict(contacts)}
    return make_chart(chart_id, sockets, channel=None, bond=[bond])


def make_unit(unit_id: str, chart_id: str, **more: Any) -> Document:
    """A unit of a rig document."""
    return _merged({"id": unit_id, "chart": chart_id}, more)


def make_cable(start: str, stop: str, ends: str = "din5/din5", **more: Any) -> Document:
    """A cable of a rig document, 300 mm long unless told otherwise."""
    return _merged({"from": start, "to": stop, "ends": ends, "length": 300}, more)


def make_chain(*names: str) -> list[Document]:
    """Cables from the MIDI OUT of each unit to the MIDI IN of the next."""
    return [make_cable(f"{one}.midi-out", f"{after}.midi-in") for one, after in pairwise(names)]


def chart_of(document: Mapping[str, Any]) -> Chart:
    """A chart document, read."""
    return read_chart(ChartShape.model_validate(document))


def rig_of(document: Mapping[str, Any], charts: Iterable[Mapping[str, Any]]) -> Rig:
    """A rig document, resolved with its charts. `format` and `rig` may be left out: the first unit
    is then the controller."""
    first = next(iter(document.get("unit", ())), {"id": "feet"})["id"]
    head = {"name": "Orchard Street Revival, a test", "controller": first}
    whole = {"format": 1, "rig": head, **document}
    read = (chart_of(chart) for chart in charts)
    return resolve(RigShape.model_validate(whole), {chart.id: chart for chart in read})


def make_rig(
    units: Sequence[Document],
    cables: Sequence[Document] = (),
    charts: Sequence[Document] | None = None,
    **more: Any,
) -> Rig:
    """A rig from its rows; by default the charts are `braeburn` (controller) and `bramley`."""
    known = [make_controller(), make_chart()] if charts is None else charts
    return rig_of({"unit": list(units), "cable": list(cables), **more}, known)


def make_line(length: int = 3, **chart: Any) -> Rig:
    """`feet` and then `length` units `unit-1`... in one line, each on the channel of its number.

    `chart` is what `make_chart` takes, for all units but the controller.
    """
    names = ["feet", *(f"unit-{number + 1}" for number in range(length))]
    units = [make_unit("feet", "braeburn")]
    units += [
        make_unit(name, "bramley", channel=(number % 16) + 1)
        for number, name in enumerate(names[1:])
    ]
    return make_rig(units, make_chain(*names), [make_controller(), make_chart("bramley", **chart)])


def _merged(made: Document, more: Mapping[str, Any]) -> Document:
    """With keys set by name (`system_exclusive` for `system-exclusive`); None takes one away."""
    whole = made | {key.replace("_", "-"): value for key, value in more.items()}
    return {key: value for key, value in whole.items() if value is not None}
