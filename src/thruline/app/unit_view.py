"""Units and cables for a page: how each is set, where that is found on it, what could be added."""

from collections.abc import Iterable, Mapping, Sequence

from thruline.app.chart_heads import chart_heads
from thruline.app.frame import Json
from thruline.app.mend import State
from thruline.app.unit_removal import going_with
from thruline.base.address import at, read_address
from thruline.base.edit import Edit, Plain, add_to
from thruline.base.errors import CannotUse
from thruline.document.naming import labels
from thruline.path.routing import Routing
from thruline.plan.wiring import by_signals
from thruline.rig.cable import is_adapted, joined
from thruline.rig.chart import Setting
from thruline.rig.nearest import nearest
from thruline.rig.socket import GIVES, TAKES, Socket, SocketKind
from thruline.rig.unit import Unit
from thruline.workshop.face import Shelf
from thruline.workshop.shelf import known_ids

EITHER = frozenset({SocketKind.MIDI, SocketKind.USB})
_WORDS = {"straight": "straight", "crossed": "crossed", "type-a": "type A", "type-b": "type B"}


def units_json(state: State, shelves: Sequence[Shelf]) -> Json:
    """Every unit with its settings, every cable, every chart that a unit could be added from."""
    rig = state.opened.rig
    return {
        "units": [
            {
                **_unit(
                    unit, routing=state.case.board.routing, is_controller=unit is rig.controller
                ),
                "goes": [one.says for one in going_with(state, unit.id)],
            }
            for unit in rig.units.values()
        ],
        "cables": _cables(state),
        "outputs": _sockets(rig.units.values(), GIVES | EITHER),
        "inputs": _sockets(rig.units.values(), TAKES | EITHER),
        "wirings": _WORDS,
        "charts": chart_heads(shelves),
    }


def _unit(unit: Unit, *, routing: Routing, is_controller: bool) -> Json:
    rule = unit.chart.channel
    sent_to = unit.chart.listens and unit.id in routing.over
    return {
        "id": unit.id,
        "address": str(unit.address),
        "name": unit.name,
        "model": unit.chart.full_name,
        "kind": unit.chart.kind,
        "chart": unit.chart.id,
        "is_controller": is_controller,
        "channel": unit.channel,
        "is_channel_written": unit.channel_written,
        "sent_on": unit.sent_on,
        "sent_over": unit.sent_over,
        "goes_over": routing.over[unit.id] if sent_to else None,
        "sent_over_outputs": list(routing.outputs) if sent_to else [],
        "channels": list(rule.allowed) if rule else [],
        "channel_where": rule.where if rule else "",
        "settings": [_setting(unit, one) for one in unit.chart.settings.values()],
    }


def _setting(unit: Unit, one: Setting) -> Json:
    return {
        "id": one.id,
        "name": one.name,
        "value": unit.settings[one.id],
        "stated": one.id in unit.stated,
        "values": list(one.values),
        "factory": one.factory,
        "where": one.where,
    }


def _cables(state: State) -> list[Json]:
    """The cables as the document has them, also those that cannot be."""
    entries = state.opened.document.data.get("cable", [])
    return [
        {
            "address": f"cable[{label}]",
            "from": one["from"],
            "to": one["to"],
            "ends": one["ends"],
            "wiring": _wiring(one["wiring"]) if "wiring" in one else None,
            "taken": "type-a" if is_adapted(_plugs(one["ends"])) else "straight",
            "length": one.get("length"),
        }
        for label, one in zip(labels("cable", entries), entries, strict=True)
    ]


def _plugs(ends: str) -> tuple[str, str]:
    start, _, stop = ends.partition("/")
    return start, stop


def _wiring(written: str | Mapping[str, str]) -> str:
    if isinstance(written, str):
        return written
    return ", ".join(f"{start} to {stop}" for start, stop in written.items())


def _sockets(units: Iterable[Unit], kinds: frozenset[SocketKind]) -> list[Json]:
    return [
        {
            "name": f"{unit.id}.{socket.id}",
            "kind": socket.kind.value,
            "connector": socket.connector,
            "marked": socket.marked,
        }
        for unit in units
        for socket in unit.chart.sockets.values()
        if socket.kind in kinds
    ]


def added_unit(state: State, chart: str, *, shelves: Sequence[Shelf]) -> Edit:
    """One more unit of a model, called after its chart. Raises CannotUse when there is none."""
    ids = known_ids(shelves)
    if chart not in ids:
        meant = nearest(chart.lower().replace(" ", "-"), ids)
        hint = f'; did you mean "{meant}"?' if meant else ""
        raise CannotUse(f'there is no chart "{chart}"{hint}')
    base = chart.rpartition("-")[2] or chart
    taken = set(state.opened.rig.units)
    name, count = base, 1
    while name in taken:
        count += 1
        name = f"{base}-{count}"
    return add_to(at("unit"), {"id": name, "chart": chart})


def added_cable(state: State, start: str, stop: str) -> Edit:
    """A cable between two sockets, with the plugs that go into them.

    Where no usual lead has such plugs, it is wired contact by contact as the sockets need it.
    Raises CannotUse when one of the sockets is not there.
    """
    first, second = _socket(state, start), _socket(state, stop)
    plugs = (first.connector, second.connector)
    entry: dict[str, Plain] = {"from": start, "to": stop, "ends": "/".join(plugs)}
    joins = by_signals(first, second)
    if joins and joined(plugs, "straight") is None:
        entry["wiring"] = {**joins}
    return add_to(read_address("cable"), entry)


def _socket(state: State, name: str) -> Socket:
    unit_id, _, socket_id = name.partition(".")
    unit = state.opened.rig.units.get(unit_id)
    socket = unit.chart.sockets.get(socket_id) if unit else None
    if socket is None:
        raise CannotUse(f'there is no socket "{name}"')
    return socket
