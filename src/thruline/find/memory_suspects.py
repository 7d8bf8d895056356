"""What may be wrong with what the controller sends: entries, numbers, order, pauses, pages."""

from collections.abc import Callable, Iterator
from functools import partial
from types import MappingProxyType
from typing import TypeAlias

from thruline.find.kinds import Kind
from thruline.find.meant import Meant
from thruline.find.suspect import Change, Reach, Sendings, Suspect
from thruline.rig.unit import Unit
from thruline.rig.values import Control, ControlKind, ControlMessage
from thruline.timing.receive import BANK_LSB, BANK_MSB, FIRST_MODE, NULL, RPN_LSB, RPN_MSB
from thruline.timing.sending import Item, Purpose

Items: TypeAlias = tuple[Item, ...]
ALL_SOUND_OFF = FIRST_MODE
"""The channel mode message that silences a unit (MIDI 1.0)."""
HALFWAY = 63
"""The highest value that still means off (MIDI 1.0)."""


def memory_suspects(meant: Meant) -> Iterator[Suspect]:
    """For every unit that is sent something, and for the controller’s memory as a whole."""
    controller = meant.rig.controller
    if controller is None or not meant.sendings:
        return
    for name in meant.looked_at:
        yield from _entries(meant, meant.rig.units[name])
    yield from _whole(meant, controller)


def _entries(meant: Meant, unit: Unit) -> Iterator[Suspect]:
    """Everything that can be wrong with what is sent to one unit."""
    for kind, edit in _EDITS:
        change = _change(kind, unit.id, partial(_mapped, edit=partial(edit, unit)))
        if change.of_memory is not None and change.of_memory(meant.sendings) != meant.sendings:
            look = "missing" if kind is Kind.ENTRY_MISSING else "other"
            yield Suspect(
                kind=kind,
                on=unit.id,
                what=unit.name,
                changes=(change,),
                shows=MappingProxyType({f"entry {unit.id}": look}),
            )
    goals = (goal for (_, name), goal in meant.goals.items() if name == unit.id)
    flips = ControlKind.TOGGLE_ANY
    if any(one.control.kind is flips for goal in goals for one in goal.controls):
        shows = MappingProxyType({f"sound {unit.id}": "changed"})
        yield Suspect(kind=Kind.TOGGLE_OUT_OF_STEP, on=unit.id, what=unit.name, shows=shows)


def _whole(meant: Meant, controller: Unit) -> Iterator[Suspect]:
    """What concerns every preset at once."""
    for kind, make, shows in (
        (Kind.MEMORY_NOT_WRITTEN, _emptied, {"written": "no"}),
        (Kind.PAGE_WRONG, _other_page, {"page": "other"}),
        (Kind.PAUSES_NOT_ENTERED, _without_pauses, {"pauses": "missing"}),
    ):
        if make(meant.sendings) != meant.sendings:
            yield Suspect(
                kind=kind,
                on=controller.id,
                what=controller.name,
                changes=(_change(kind, controller.id, make),),
                shows=MappingProxyType(shows),
            )


def _change(kind: Kind, on: str, make: Callable[[Sendings], Sendings]) -> Change:
    return Change(key=f"{kind} {on}", reach=Reach.MEMORY, on=on, of_memory=make)


def _mapped(sendings: Sendings, *, edit: Callable[[Items], Items]) -> Sendings:
    return {number: edit(items) for number, items in sendings.items()}


def _emptied(sendings: Sendings) -> Sendings:
    """A memory in which nothing was written yet."""
    return dict.fromkeys(sendings, ())


def _other_page(sendings: Sendings) -> Sendings:
    """Every press recalls another of the presets."""
    numbers = list(sendings)
    moved = numbers[1:] + numbers[:1]
    return {number: sendings[other] for number, other in zip(numbers, moved, strict=True)}


def _without_pauses(sendings: Sendings) -> Sendings:
    return {
        number: tuple(item._replace(pause_us=0) for item in items)
        for number, items in sendings.items()
    }


def _kept(items: Items, wants: Callable[[Item], bool]) -> Items:
    return tuple(item for item in items if wants(item))


def _changed(items: Items, wants: Callable[[Item], bool], make: Callable[[bytes], bytes]) -> Items:
    return tuple(item._replace(data=make(item.data)) if wants(item) else item for item in items)


def _is(unit: Unit, *purposes: Purpose) -> Callable[[Item], bool]:
    return lambda item: item.unit == unit.id and (not purposes or item.purpose in purposes)


def _entry_missing(unit: Unit, items: Items) -> Items:
    return _kept(items, lambda item: item.unit != unit.id)


def _other_channel(unit: Unit, items: Items) -> Items:
    free = _free_channel(items)
    return _changed(items, _is(unit), lambda data: bytes((data[0] & 0xF0 | free, *data[1:])))


def _free_channel(items: Items) -> int:
    """A channel, counted from 0, that nothing is sent on; the last where there is none."""
    used = {item.data[0] & 0x0F for item in items}
    return next((one for one in range(15, -1, -1) if one not in used), 15)


def _shifted(unit: Unit, items: Items, *, by: int) -> Items:
    def make(data: bytes) -> bytes:
        return bytes((data[0], min(127, max(0, data[1] + by))))

    return _changed(items, _is(unit, Purpose.PROGRAM), make)


def _beyond(unit: Unit, items: Items) -> Items:
    return _changed(items, _is(unit, Purpose.PROGRAM), lambda data: bytes((data[0], 127)))


def _bank_not_sent(unit: Unit, items: Items) -> Items:
    wants = _is(unit, Purpose.BANK)
    return _kept(items, lambda item: not wants(item))


def _bank_after(unit: Unit, items: Items) -> Items:
    banks = _kept(items, _is(unit, Purpose.BANK))
    found: list[Item] = []
    for item in _bank_not_sent(unit, items):
        found.append(item)
        if _is(unit, Purpose.PROGRAM)(item):
            found += banks
    return tuple(found) if any(map(_is(unit, Purpose.PROGRAM), items)) else items


def _halves_swapped(unit: Unit, items: Items) -> Items:
    other = {BANK_MSB: BANK_LSB, BANK_LSB: BANK_MSB}

    def make(data: bytes) -> bytes:
        return bytes((data[0], other.get(data[1], data[1]), data[2]))

    return _changed(items, _is(unit, Purpose.BANK), make)


def _controls_not_sent(unit: Unit, items: Items) -> Items:
    wants = _is(unit, Purpose.CONTROL)
    return _kept(items, lambda item: not wants(item))


def _controls_first(unit: Unit, items: Items) -> Items:
    if not any(map(_is(unit, Purpose.PROGRAM), items)):
        return items
    controls = _kept(items, _is(unit, Purpose.CONTROL))
    return (*controls, *_controls_not_sent(unit, items))


def _other_number(unit: Unit, items: Items) -> Items:
    known = set(unit.chart.readings.plain)
    free = next((one for one in range(102, 120) if one not in known), 119)

    def make(data: bytes) -> bytes:
        return bytes((data[0], free, data[2]))

    return _changed(items, _is(unit, Purpose.CONTROL), make)


def _of_kind(unit: Unit, item: Item, wants: Callable[[Control], bool]) -> bool:
    if item.unit != unit.id or item.purpose is not Purpose.CONTROL:
        return False
    control = unit.chart.controls.get(item.part or "")
    return control is not None and wants(control)


def _switch(unit: Unit) -> Callable[[Item], bool]:
    return lambda item: _of_kind(unit, item, lambda one: one.kind is ControlKind.SWITCH)


def _halfway(unit: Unit, items: Items) -> Items:
    return _changed(items, _switch(unit), lambda data: bytes((*data[:2], HALFWAY)))


def _inverted(unit: Unit, items: Items) -> Items:
    return _changed(items, _switch(unit), lambda data: bytes((*data[:2], 127 - data[2])))


def _fine_first(unit: Unit, items: Items) -> Items:
    """The two halves of every pair of control changes in the other order."""
    found = list(items)
    for place in range(len(found) - 1):
        first, second = found[place], found[place + 1]
        pair = first.part == second.part and second.data[1:2] == bytes((first.data[1] + 32,))
        is_pair = _of_kind(unit, first, lambda one: one.message is ControlMessage.CC14)
        if pair and is_pair:
            found[place] = second._replace(pause_us=first.pause_us)
            found[place + 1] = first._replace(pause_us=second.pause_us)
    return tuple(found)


def _left_open(unit: Unit, items: Items) -> Items:
    closes = (RPN_LSB, RPN_MSB)
    mine = _is(unit, Purpose.CONTROL)
    return _kept(
        items, lambda item: not (mine(item) and item.data[1] in closes and item.data[2] == NULL)
    )


def _panic(unit: Unit, items: Items) -> Items:
    if unit.sent_on is None or not any(map(_is(unit), items)):
        return items
    status = 0xB0 | (unit.sent_on - 1)
    panic = Item(bytes((status, ALL_SOUND_OFF, 0)), Purpose.OTHER, unit.id)
    return (*items, panic)


_EDITS: tuple[tuple[Kind, Callable[[Unit, Items], Items]], ...] = (
    (Kind.ENTRY_MISSING, _entry_missing),
    (Kind.ENTRY_OTHER_CHANNEL, _other_channel),
    (Kind.ENTRY_ONE_UP, partial(_shifted, by=1)),
    (Kind.ENTRY_ONE_DOWN, partial(_shifted, by=-1)),
    (Kind.ENTRY_BEYOND, _beyond),
    (Kind.BANK_NOT_SENT, _bank_not_sent),
    (Kind.BANK_AFTER_PROGRAM, _bank_after),
    (Kind.BANK_HALVES_SWAPPED, _halves_swapped),
    (Kind.CONTROLS_NOT_SENT, _controls_not_sent),
    (Kind.CONTROLS_BEFORE_PROGRAM, _controls_first),
    (Kind.CONTROL_OTHER_NUMBER, _other_number),
    (Kind.SWITCH_HALFWAY, _halfway),
    (Kind.SWITCH_INVERTED, _inverted),
    (Kind.FINE_BEFORE_COARSE, _fine_first),
    (Kind.PARAMETER_LEFT_OPEN, _left_open),
    (Kind.PANIC_SENT, _panic),
)
"""What can be wrong with one unit’s entries, and how that changes what is sent."""
