"""What may be wrong with the units of a rig: their menus, their numbering, the units themselves."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from thruline.find.cable_suspects import alike_cut
from thruline.find.hearing import wants_dumps
from thruline.find.kinds import Kind
from thruline.find.meant import Meant
from thruline.find.rig_edits import cut_at, dead, deaf, set_to, with_chart, with_unit
from thruline.find.suspect import Change, Reach, Suspect
from thruline.rig.cable import Jack
from thruline.rig.chart import Governs, Setting, Traffic, Way
from thruline.rig.programs import BankBytes
from thruline.rig.unit import Unit, is_omni, meaning, sends

Make = Callable[[Unit], Unit]
SLOWER = 6
"""How many times longer than its chart says a unit may load."""
_MAPPED_BY = 17
"""How far a program map leads away, for want of knowing what is in it."""


def unit_suspects(meant: Meant) -> Iterator[Suspect]:
    """For every unit, in the order of the document."""
    looked_at = set(meant.looked_at)
    controller = meant.rig.controller
    for unit in meant.rig.units.values():
        is_controller = controller is not None and unit.id == controller.id
        has_wires = bool(meant.case.board.network.inputs_of(unit.id)) or is_controller
        if has_wires and (unit.chart.listens or unit.chart.outputs):
            yield from _outputs(meant, unit)
            yield from _itself(meant, unit)
        if unit.id in looked_at:
            yield from _channels(meant, unit)
            yield from _receiving(unit)
            yield from _numbers(unit)
            yield _said(Kind.NOT_STORED, unit, f"sound {unit.id}", "changed")
            if unit.chart.identity:
                yield _said(Kind.OTHER_FIRMWARE, unit, f"identity {unit.id}", "other")
        yield from _clock(meant, unit)


def _said(kind: Kind, unit: Unit, look: str, shows: str) -> Suspect:
    """A suspect that only a look at the thing itself shows."""
    return Suspect(kind=kind, on=unit.id, what=unit.name, shows=MappingProxyType({look: shows}))


def _suspect(
    kind: Kind,
    unit: Unit,
    make: Make,
    *,
    reach: Reach = Reach.EAR,
    shows: Mapping[str, str] | None = None,
    variant: str = "",
) -> Suspect:
    tail = f":{variant}" if variant else ""
    change = Change(
        key=f"{kind} {unit.id}{tail}",
        reach=reach,
        on=unit.id,
        of_rig=lambda rig: with_unit(rig, unit.id, make),
    )
    return Suspect(
        kind=kind,
        on=f"{unit.id}.{variant}" if variant else unit.id,
        what=f"{unit.name} > {_menu(unit, variant)}" if variant else unit.name,
        changes=(change,),
        shows=MappingProxyType(dict(shows or {})),
    )


def _menu(unit: Unit, setting: str) -> str:
    found = unit.chart.settings.get(setting)
    return found.name if found is not None else setting


def _set_suspect(
    kind: Kind, unit: Unit, setting: Setting, value: str, *, reach: Reach = Reach.EAR
) -> Suspect:
    """A menu item that stands on another value."""
    found = _suspect(
        kind,
        unit,
        lambda one: set_to(one, {setting.id: value}),
        reach=reach,
        shows={f"menu {unit.id}.{setting.id}": "other"},
        variant=setting.id,
    )
    return replace(found, to=f': "{unit.settings[setting.id]}"{_where(setting.where)}')


def _where(where: str) -> str:
    return f" ({where})" if where else ""


def _outputs(meant: Meant, unit: Unit) -> Iterator[Suspect]:
    """Every other value of the menu items that decide what an output with a lead in it does."""
    leaving = meant.case.board.network.leaving
    used = {jack.socket for jack in leaving if jack.unit == unit.id}
    for setting in unit.chart.settings.values():
        if setting.governs is not Governs.OUTPUT or setting.socket not in used:
            continue
        now = meaning(unit, setting)
        seen: set[Kind] = set()
        for value in setting.values:
            means = setting.means.get(value, value if not setting.means else "")
            if value == unit.settings[setting.id] or means not in set(Way):
                continue
            kind = _otherwise(now, Way(means))
            if kind is not None and kind not in seen:
                seen.add(kind)
                made = _set_suspect(kind, unit, setting, value, reach=Reach.WIRES)
                yield _alike(meant, made, Jack(unit.id, setting.socket), Way(means))


def _alike(meant: Meant, suspect: Suspect, jack: Jack, way: Way) -> Suspect:
    """The suspect, known to be like a cut lead where nothing at all leaves the output any more."""
    unit = meant.rig.units[jack.unit]
    own = way is Way.OWN and (unit.chart.abilities is not None or sends(unit, "clock"))
    if way.forwards or own:
        return suspect
    change = replace(suspect.changes[0], alike=alike_cut(meant, jack), silences=frozenset((jack,)))
    return replace(suspect, changes=(change,))


def _otherwise(now: str | None, other: Way) -> Kind | None:
    """What kind of mistake another way of an output is; None where it does the same."""
    if now is None or now not in set(Way):
        return None
    planned = Way(now)
    lost_own = planned in (Way.OWN, Way.MERGE) and other not in (Way.OWN, Way.MERGE)
    if (planned.forwards and not other.forwards) or lost_own:
        return Kind.OUTPUT_NOT_PASSING
    return Kind.OUTPUT_ECHOES if other.forwards and not planned.forwards else None


def _itself(meant: Meant, unit: Unit) -> Iterator[Suspect]:
    lamp = {f"power {unit.id}": "dark", f"supply {unit.id}": "good"}
    yield Suspect(
        kind=Kind.UNIT_DEAD,
        on=unit.id,
        what=unit.name,
        changes=(off(meant, unit),),
        shows=MappingProxyType(lamp),
    )
    if unit.chart.listens:
        frozen = _suspect(
            Kind.FROZEN, unit, deaf, reach=Reach.WIRES, shows={f"hand {unit.id}": "dead"}
        )
        copies = any(one.ways == (Way.THRU_WIRE,) for one in unit.chart.outputs.values())
        alike = "" if copies else off(meant, unit).alike
        inputs = meant.case.board.network.inputs_of(unit.id)
        change = replace(
            frozen.changes[0],
            alike=alike,
            silences=frozenset(inputs),
            of_rig=lambda rig: cut_at(with_unit(rig, unit.id, deaf), *(() if copies else inputs)),
        )
        yield replace(frozen, changes=(change,))
        if wants_dumps(unit):
            shows = MappingProxyType({f"release {unit.id}": "revives"})
            yield replace(frozen, kind=Kind.STUCK_IN_DUMP, changes=(change,), shows=shows)


def off(meant: Meant, unit: Unit) -> Change:
    """The change of a unit that does not run, for whatever reason."""
    jacks = meant.case.board.network.inputs_of(unit.id)
    fed = [jack for jack in jacks if meant.case.board.network.inputs[jack]]
    silent = unit.chart.abilities is None and not sends(unit, "clock")
    sockets = frozenset(Jack(unit.id, socket) for socket in unit.chart.sockets)
    return Change(
        key=f"off {unit.id}",
        alike=alike_cut(meant, fed[0]) if len(fed) == 1 and silent else "",
        silences=sockets,
        reach=Reach.WIRES,
        on=unit.id,
        of_rig=lambda rig: cut_at(with_unit(rig, unit.id, dead), *sockets),
    )


def _channels(meant: Meant, unit: Unit) -> Iterator[Suspect]:
    rule = unit.chart.channel
    if rule is None or unit.channel is None:
        return
    shows = {f"channel {unit.id}": "other"}
    blocks = any(Traffic.OWN_CHANNEL in out.blocks for out in unit.chart.outputs.values())
    reach = Reach.WIRES if blocks else Reach.EAR
    for kind, channel in (
        (Kind.CHANNEL_ABOVE, unit.channel + 1),
        (Kind.CHANNEL_BELOW, unit.channel - 1),
        (Kind.CHANNEL_OF_ANOTHER, _anothers(meant, unit)),
    ):
        if channel in rule.allowed:
            made = _suspect(kind, unit, _on_channel(channel or 0), reach=reach, shows=shows)
            yield replace(made, to=f": {unit.channel}{_where(rule.where)}")
    changed = _factory(unit)
    if changed != unit:
        menus = {
            f"menu {unit.id}.{key}": "other"
            for key, value in unit.settings.items()
            if changed.settings[key] != value
        }
        also = shows if changed.channel != unit.channel else {}
        changed_menus = (unit.chart.settings[name.rpartition(".")[2]] for name in menus)
        wires = blocks or any(one.governs in _OF_WIRES for one in changed_menus)
        if len(menus) + bool(also) > 1:  # one thing alone is that menu item, or that channel
            yield _suspect(
                Kind.BACK_TO_FACTORY,
                unit,
                _factory,
                reach=Reach.WIRES if wires else Reach.EAR,
                shows={**menus, **also},
            )


_OF_WIRES = (Governs.OUTPUT, Governs.CLOCK_RECEIVE, Governs.CLOCK_SEND)
"""Settings that matter to more than what the unit itself makes of program and control changes."""


def _on_channel(channel: int) -> Make:
    return lambda unit: replace(unit, channel=channel)


def _factory(unit: Unit) -> Unit:
    """The unit as it leaves the factory."""
    rule = unit.chart.channel
    settings = {key: one.factory for key, one in unit.chart.settings.items()}
    channel = rule.factory if rule is not None and rule.factory is not None else unit.channel
    return replace(set_to(unit, settings), channel=channel)


def _anothers(meant: Meant, unit: Unit) -> int | None:
    """The channel of another unit that is not right beside this one’s."""
    near = {unit.channel, (unit.channel or 0) + 1, (unit.channel or 0) - 1}
    others = (meant.rig.units[name].sent_on for name in meant.looked_at)
    return next((one for one in others if one is not None and one not in near), None)


def _receiving(unit: Unit) -> Iterator[Suspect]:
    """Menu items that keep a unit from taking what is sent to it."""
    closed = {
        Governs.PROGRAM_RECEIVE: Kind.PROGRAMS_OFF,
        Governs.CONTROL_RECEIVE: Kind.CONTROLS_OFF,
        Governs.SYSTEM_EXCLUSIVE_RECEIVE: Kind.DUMPS_OFF,
    }
    for setting in unit.chart.settings.values():
        now = meaning(unit, setting)
        for value in setting.values:
            means = setting.means.get(value, value if not setting.means else "")
            if setting.governs in closed and now == "on" and means == "off":
                yield _set_suspect(closed[setting.governs], unit, setting, value)
                break
            if setting.governs is Governs.OMNI and means == "on" and is_omni(unit) is False:
                yield _set_suspect(Kind.OMNI_ON, unit, setting, value)
                break


def _numbers(unit: Unit) -> Iterator[Suspect]:
    """Ways in which a unit may count its programs, or load them, otherwise than planned."""
    numbering, settle = unit.chart.programs, unit.chart.settle
    if numbering is not None:
        hand = {f"numbers {unit.id}": "other"}
        for kind, shift in (
            (Kind.NUMBERS_ONE_UP, -1),
            (Kind.NUMBERS_ONE_DOWN, 1),
            (Kind.NUMBERS_MAPPED, -_MAPPED_BY),
        ):
            yield _suspect(kind, unit, _counting(shift), shows=hand)
        if numbering.bank_bytes in (BankBytes.MSB, BankBytes.LSB):
            yield _suspect(Kind.BANK_BYTE_OTHER, unit, _other_bank, shows=hand)
    if settle is not None and settle.load_us:
        yield _suspect(Kind.LOADS_SLOWLY, unit, _slower)


def _counting(shift: int) -> Make:
    """A unit whose first program answers to another number on the wire."""

    def make(unit: Unit) -> Unit:
        numbering = unit.chart.programs
        if numbering is None:
            return unit
        moved = replace(numbering, first_wire=numbering.first_wire + shift)
        return with_chart(unit, lambda chart: replace(chart, programs=moved))

    return make


def _other_bank(unit: Unit) -> Unit:
    numbering = unit.chart.programs
    if numbering is None:
        return unit
    other = BankBytes.LSB if numbering.bank_bytes is BankBytes.MSB else BankBytes.MSB
    swapped = replace(numbering, bank_bytes=other)
    return with_chart(unit, lambda chart: replace(chart, programs=swapped))


def _slower(unit: Unit) -> Unit:
    settle = unit.chart.settle
    if settle is None:
        return unit
    slow = replace(settle, load_us=settle.load_us * SLOWER)
    return with_chart(unit, lambda chart: replace(chart, settle=slow))


def _clock(meant: Meant, unit: Unit) -> Iterator[Suspect]:
    """Menu items about the clock, where the board has one."""
    masters = [one for one in meant.rig.units.values() if sends(one, "clock")]
    if not masters:
        return
    for setting in unit.chart.settings.values():
        now = meaning(unit, setting)
        for value in setting.values:
            means = setting.means.get(value, value if not setting.means else "")
            kind = _clock_kind(setting.governs, now, means)
            if kind is not None:
                yield _set_suspect(kind, unit, setting, value, reach=Reach.WIRES)
                break


def _clock_kind(governs: Governs, now: str | None, means: str) -> Kind | None:
    if now == "on" and means == "off":
        return {
            Governs.CLOCK_RECEIVE: Kind.CLOCK_IN_OFF, Governs.CLOCK_SEND: Kind.CLOCK_OUT_OFF
        }.get(governs)  # fmt: skip
    if governs is Governs.CLOCK_SEND and now == "off" and means == "on":
        return Kind.TWO_CLOCKS
    return None
