"""The shape of a chart document to the chart itself, with its inner references checked."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Protocol, TypeVar

from thruline.document import chart_shape as shape
from thruline.document.controller_shape import ControllerShape, PedalInputShape
from thruline.document.odds_shape import OddsShape
from thruline.document.power_shape import OutletShape, PowerShape
from thruline.rig import chart as model
from thruline.rig.controller import Abilities, Loop, OrderAbility, Pauses, PedalInput, Routing
from thruline.rig.power import Choice, Need, Outlet
from thruline.rig.programs import BankBytes, Digit, Numbering, WireProgram
from thruline.rig.readings import readings_of
from thruline.rig.socket import Socket, SocketKind, Spread, Wiring, usual_wiring
from thruline.rig.values import Control, ControlKind, ControlMessage, Scale, Zone


class _Named(Protocol):
    @property
    def id(self) -> str: ...


NamedT = TypeVar("NamedT", bound=_Named)


def read_chart(document: shape.ChartShape) -> model.Chart:
    """The chart that a document describes. What it lacks stays None."""
    head = document.chart
    sockets = _named(_socket(one) for one in document.socket)
    controls = _named(_control(one) for one in document.control)
    return model.Chart(
        id=head.id,
        maker=head.maker,
        model=head.model,
        kind=head.kind,
        about=head.about,
        firmware=head.firmware,
        origins=tuple(model.Origin(s.fact, s.from_, s.checked_by) for s in document.source),
        size=_size(document),
        sockets=sockets,
        bonds=tuple(model.Bond(b.from_, b.to, tuple(b.contacts.items())) for b in document.bond),
        outputs=MappingProxyType({o.socket: _output(o, sockets) for o in document.output}),
        settings=_named(_setting(one) for one in document.setting),
        channel=_channel(document.channel),
        programs=read_numbering(document.programs),
        controls=controls,
        readings=readings_of(controls),
        settle=_settle(document.settle),
        receives=_receives(document.receive),
        sends=tuple(
            model.Send(what=s.what, setting=s.setting, factory=s.factory == "on")
            for s in document.send
        ),
        identity=_identity(document.identity),
        power=_need(document.power),
        outlets=MappingProxyType({o.socket: _outlet(o) for o in document.outlet}),
        supply_milliwatts=document.supply.milliwatts if document.supply else None,
        loops=_named(Loop(id=one.id, send=one.send, back=one.return_) for one in document.loop),
        abilities=_abilities(document.controller),
        pedals=MappingProxyType({p.socket: _pedal(p) for p in document.pedal}),
        expression=_expression(document.expression),
        odds=read_odds(document.odds),
    )


def read_odds(odds: Iterable[OddsShape]) -> Mapping[str, float]:
    """How many times likelier than usual each kind of fault is; of two entries the last counts."""
    return MappingProxyType({one.fault: float(one.times) for one in odds})


def _named(things: Iterable[NamedT]) -> Mapping[str, NamedT]:
    """Things by their id."""
    return MappingProxyType({thing.id: thing for thing in things})


def _size(document: shape.ChartShape) -> model.Footprint | None:
    size = document.size
    return model.Footprint(size.width, size.depth, size.height) if size else None


def _socket(one: shape.SocketShape) -> Socket:
    kind = SocketKind(one.kind)
    midi = kind in (SocketKind.MIDI_IN, SocketKind.MIDI_OUT, SocketKind.MIDI)
    wiring = Wiring(one.wiring) if one.wiring else usual_wiring(one.connector) if midi else None
    return Socket(
        id=one.id,
        kind=kind,
        connector=one.connector,
        wiring=wiring,
        marked=one.marked,
        isolated=one.isolated,
        spare_power=one.spare_power,
        place=Spread(one.place.side, one.place.along) if one.place else None,
    )


def _output(one: shape.OutputShape, sockets: Mapping[str, Socket]) -> model.Output:
    heard = (SocketKind.MIDI_IN, SocketKind.USB)
    inputs = tuple(s.id for s in sockets.values() if s.kind in heard and s.id != one.socket)
    return model.Output(
        socket=one.socket,
        ways=tuple(model.Way(way) for way in one.ways),
        sources=tuple(one.from_) if one.from_ is not None else inputs,
        latency_us=one.latency_us,
        by_byte=one.by == "byte",
        blocks=frozenset(model.Traffic(kind) for kind in one.blocks),
        buffer_bytes=one.buffer_bytes,
        skew_ns=one.skew_ns,
        running_status=one.running_status,
    )


def _setting(one: shape.SettingShape) -> model.Setting:
    return model.Setting(
        id=one.id,
        name=one.name,
        values=tuple(one.values),
        factory=one.factory,
        where=one.where,
        governs=model.Governs(one.governs),
        socket=one.socket,
        means=MappingProxyType(dict(one.means)),
    )


def _channel(one: shape.ChannelShape | None) -> model.ChannelRule | None:
    if one is None:
        return None
    return model.ChannelRule(
        allowed=tuple(one.allowed),
        factory=one.factory,
        omni=one.omni,
        occupies=one.occupies,
        where=one.where,
    )


def _digit(one: shape.Digits | None) -> Digit | None:
    return Digit(count=one.count, first=one.first, width=one.width) if one else None


def read_numbering(one: shape.ProgramsShape | None) -> Numbering | None:
    """The numbering rule of a chart, if its unit has programs."""
    if one is None:
        return None
    return Numbering(
        slots=_digit(one.slots),
        banks=_digit(one.banks),
        names=tuple(one.names or ()),
        slot_first=one.order == "slot-bank",
        separator=one.separator,
        first_wire=one.first_wire,
        per_bank=one.per_bank,
        first_bank=one.first_bank,
        bank_bytes=BankBytes(one.bank_select),
        bank_cleared=one.bank_after == "clears",
        special=tuple((s.label, WireProgram(s.bank, s.program)) for s in one.special),
    )


def _control(one: shape.ControlShape) -> Control:
    scale = one.scale
    return Control(
        id=one.id,
        name=one.name,
        number=one.number,
        message=ControlMessage(one.message),
        kind=ControlKind(one.kind),
        low=one.low,
        high=one.high,
        scale=Scale(
            unit=scale.unit,
            low=scale.low,
            high=scale.high,
            log=scale.law == "log",
            decimals=scale.decimals,
        )
        if scale
        else None,
        zones=tuple(Zone(label=z.label, low=z.low, high=z.high) for z in one.zones),
        stored=one.stored,
        expression=one.expression,
        power_up=one.power_up,
        gain=one.gain,
    )


def _settle(one: shape.SettleShape | None) -> model.Settle | None:
    if one is None:
        return None
    controls = model.Meanwhile(one.controls) if one.controls else None
    return model.Settle(load_us=one.ms * 1000, controls=controls, apply_us=one.apply_ms * 1000)


def _receives(one: shape.ReceiveShape) -> model.Receives:
    return model.Receives(
        program=one.program,
        control=one.control,
        note=one.note,
        clock=one.clock,
        system_exclusive=one.system_exclusive,
        running_status=one.running_status,
        buffer_bytes=one.buffer_bytes,
        longest_rate=one.longest_rate,
    )


def _identity(one: shape.IdentityShape | None) -> tuple[int, ...]:
    return (*one.manufacturer, *one.family, *one.member) if one else ()


def _need(one: PowerShape | None) -> Need | None:
    if one is None:
        return None
    return Need(
        millivolts=one.millivolts,
        most_millivolts=one.most_millivolts or one.millivolts,
        ac=one.feed == "ac",
        polarity=one.polarity,
        milliamps=one.milliamps,
        start_percent=one.start_percent,
        digital=one.digital,
    )


def _outlet(one: OutletShape) -> Outlet:
    return Outlet(
        socket=one.socket,
        millivolts=one.millivolts,
        ac=one.feed == "ac",
        polarity=one.polarity,
        milliamps=one.milliamps,
        isolated=one.isolated,
        choices=tuple(
            Choice(value=each.value, millivolts=each.millivolts, milliamps=each.milliamps)
            for each in one.choice
        ),
    )


def _abilities(one: ControllerShape | None) -> Abilities | None:
    if one is None:
        return None
    pauses = one.pauses
    return Abilities(
        presets=one.presets,
        first_preset=one.first_preset,
        name_length=one.name_length,
        messages=one.messages,
        order=OrderAbility(one.order),
        pauses=Pauses(step_ms=pauses.step_ms, longest_ms=pauses.longest_ms, count=pauses.count)
        if pauses
        else None,
        programs_from=one.programs_from,
        sends=frozenset(one.sends),
        running_status=one.running_status,
        gap_us=one.gap_us,
        routing=Routing(one.routing),
    )


def _pedal(one: PedalInputShape) -> PedalInput:
    return PedalInput(
        socket=one.socket,
        moves=one.moves,
        curves=frozenset(one.curves),
        reverse=one.reverse,
        interval_ms=one.interval_ms,
        on_recall=one.on_recall,
        calibrates=one.calibrates,
        wiring=one.wiring,
    )


def _expression(one: shape.ExpressionShape | None) -> model.Expression | None:
    if one is None:
        return None
    return model.Expression(
        wiring=one.wiring,
        ohms=one.ohms,
        taper=one.taper,
        lowest=one.lowest,
        highest=one.highest,
        flicker=one.flicker,
    )
