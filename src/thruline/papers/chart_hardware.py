"""What the standard sheet has no room for: sockets, power, what a controller can do, sources."""

from collections.abc import Iterator, Mapping

from thruline.base.measures import shown_ms
from thruline.papers.paper import Section, table_of
from thruline.rig.chart import Chart, Expression
from thruline.rig.controller import Abilities, OrderAbility, PedalInput
from thruline.rig.power import Need, Outlet
from thruline.rig.socket import Socket, SocketKind

NOT_TOLD = "?"
_ORDER: Mapping[OrderAbility, str] = {
    OrderAbility.FREE: "in the order in which they were entered",
    OrderAbility.BY_UNIT: "channel by channel, the program first, then its controls",
    OrderAbility.PROGRAMS_FIRST: "all programs in channel order, then all controls",
}


def hardware(chart: Chart) -> Iterator[Section]:
    """What a controller keeps, pedals, loops, sockets and power, and where it all is from."""
    if chart.abilities is not None:
        yield _presets(chart.abilities)
    if chart.pedals:
        yield _pedals(chart.pedals)
    if chart.loops:
        rows = [(one.id, one.send, one.back) for one in chart.loops.values()]
        yield Section(title="Relay loops", table=table_of(("Loop", "Send", "Return"), rows))
    if chart.expression is not None:
        yield Section(title="Expression pedal", says=(_pedal_in_words(chart.expression),))
    if chart.sockets:
        yield _sockets(chart)
    yield from _power(chart)
    yield _origins(chart)


def _presets(can: Abilities) -> Section:
    pauses = "It cannot pause between messages."
    if can.pauses is not None:
        most = f", {can.pauses.count} in a preset" if can.pauses.count else ""
        pauses = (
            f"Pauses of {can.pauses.step_ms} to {can.pauses.longest_ms} ms in steps of "
            f"{can.pauses.step_ms} ms{most}."
        )
    last = can.first_preset + can.presets - 1
    says = (
        f"{can.presets} presets, {can.first_preset} to {last}.",
        f"In a preset: {can.messages or NOT_TOLD} messages, {can.name_length or NOT_TOLD} letters.",
        f"Messages leave {_ORDER[can.order]}. {pauses}",
        f"It can send {', '.join(sorted(can.sends))}.",
        f"Its screen counts programs from {can.programs_from}.",
        f"Its own time a message: {shown_ms(can.gap_us)}.",
    )
    return Section(title="Presets of the controller", says=says)


def _pedals(pedals: Mapping[str, PedalInput]) -> Section:
    rows = [
        (
            one.socket,
            str(one.moves),
            ", ".join(sorted(one.curves)),
            "yes" if one.reverse else "no",
            NOT_TOLD if one.interval_ms is None else f"{one.interval_ms} ms",
            "yes" if one.on_recall else "no",
            one.wiring,
        )
        for one in pedals.values()
    ]
    head = (
        "Input",
        "Moves",
        "Curves",
        "Heel above toe",
        "Every",
        "Sends on recall",
        "Pedal wiring",
    )
    return Section(title="Pedal inputs", table=table_of(head, rows))


def _pedal_in_words(pedal: Expression) -> str:
    ohms = "resistance not told" if pedal.ohms is None else f"{pedal.ohms} ohms"
    return (
        f"{pedal.wiring}, {ohms}, taper {pedal.taper or 'not told'}; uncalibrated it reaches "
        f"{pedal.lowest} to {pedal.highest} and wanders {pedal.flicker} steps at rest."
    )


def _sockets(chart: Chart) -> Section:
    rows = [
        (one.id, one.marked or "-", one.kind.value, one.connector, _wiring(one), _seat(one))
        for one in chart.sockets.values()
    ]
    size = chart.size
    notes = (f"Size: {size.width} x {size.depth} x {size.height} mm.",) if size else ()
    head = ("Socket", "Marked", "For", "Connector", "Wiring", "Where it sits")
    return Section(title="Sockets", table=table_of(head, rows), notes=notes)


def _wiring(socket: Socket) -> str:
    told = [socket.wiring.value] if socket.wiring else []
    if socket.kind in (SocketKind.MIDI_IN, SocketKind.MIDI_OUT) and not told:
        told.append("wiring: ?")
    if socket.kind is SocketKind.MIDI_IN:
        isolated = {True: "isolated", False: "not isolated", None: "isolated: ?"}
        told.append(isolated[socket.isolated])
    if socket.spare_power:
        told.append("POWER on contacts that MIDI leaves unused")
    return ", ".join(told) or "-"


def _seat(socket: Socket) -> str:
    return NOT_TOLD if socket.place is None else f"{socket.place.side}, {socket.place.along} mm"


def _power(chart: Chart) -> Iterator[Section]:
    if chart.power is not None:
        yield Section(title="Power", says=(f"Wants {_need(chart.power)}.",))
    if chart.outlets:
        rows = [row for one in chart.outlets.values() for row in _outlet(one)]
        total = chart.supply_milliwatts
        notes = () if total is None else (f"{total / 1000:g} W in all.",)
        head = ("Outlet", "Volts", "Polarity", "At most", "Isolated")
        yield Section(title="Outlets", table=table_of(head, rows), notes=notes)


def _need(need: Need) -> str:
    most = need.most_millivolts
    volts = f"{need.millivolts / 1000:g}"
    volts += f" to {most / 1000:g} V" if most > need.millivolts else " V"
    parts = [
        f"{volts} {'AC' if need.ac else 'DC'}",
        "" if need.ac else need.polarity or "polarity not told",
        "current not told" if need.milliamps is None else f"{need.milliamps} mA",
    ]
    if need.start_percent is not None and need.milliamps is not None:
        parts.append(f"{need.milliamps * need.start_percent // 100} mA for an instant at switch-on")
    if need.digital:
        parts.append("an outlet of its own, for its current is noisy")
    return ", ".join(filter(None, parts))


def _outlet(one: Outlet) -> Iterator[tuple[str, ...]]:
    """An outlet, and what it gives at other positions of its switch."""
    other = [(f"{one.socket}, set to {each.value}", one.at(each.value)) for each in one.choices]
    for name, gives in [(one.socket, one), *other]:
        yield (
            name,
            f"{gives.millivolts / 1000:g} {'AC' if gives.ac else 'DC'}",
            "-" if gives.ac else gives.polarity or NOT_TOLD,
            f"{gives.milliamps} mA",
            "yes" if gives.isolated else "no",
        )


def _origins(chart: Chart) -> Section:
    if not chart.origins:
        return Section(title="Sources", says=("The chart does not say where its facts are from.",))
    rows = [(one.fact, one.place, one.checked_by or "nobody yet") for one in chart.origins]
    return Section(title="Sources", table=table_of(("Fact", "From", "Checked by"), rows))
