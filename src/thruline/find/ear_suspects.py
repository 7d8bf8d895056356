"""What may be wrong with how a unit hears: messages too close together, running status, numbers.

The fault is put in between the line and the unit: of what comes, only a part gets through to the
same reception that every prediction uses.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from types import MappingProxyType

from thruline.base.measures import BYTE_US
from thruline.find.kinds import Kind
from thruline.find.meant import Meant
from thruline.find.rig_edits import cut_at, with_chart, with_unit
from thruline.find.suspect import Arrivals, Change, Reach, Suspect
from thruline.path.links import Link
from thruline.path.makers import leaves_status_out, maker_of
from thruline.rig.cable import Jack
from thruline.rig.chart import Chart
from thruline.rig.readings import Part, Reading, Readings
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig

READS_US = 1000
"""How long a unit whose input overflows takes to read a byte: a third of the speed of the line."""
ROOM_BYTES = 16
"""How many bytes such an input keeps waiting."""
KNOWN_NOT_TO = 5.0
"""How much likelier a unit is not to understand running status when its chart says so."""


def ear_suspects(meant: Meant) -> Iterator[Suspect]:
    """For every unit that some press should change, in the order of the document."""
    for name in meant.looked_at:
        unit = meant.rig.units[name]
        if unit.chart.controls:
            yield _hearing(Kind.INPUT_OVERFLOWS, unit, overflowed, {f"ramp {name}": "dense"})
        yield from _running_status(meant, unit)
        yield from _numbers(meant, unit)
        yield from _low_voltage(meant, unit)


def _hearing(
    kind: Kind, unit: Unit, of_arrivals: Callable[[Arrivals], Arrivals], shows: dict[str, str]
) -> Suspect:
    change = Change(key=f"{kind} {unit.id}", reach=Reach.EAR, on=unit.id, of_arrivals=of_arrivals)
    return Suspect(
        kind=kind, on=unit.id, what=unit.name, changes=(change,), shows=MappingProxyType(shows)
    )


def overflowed(arrivals: Arrivals) -> Arrivals:
    """What a unit gets that reads more slowly than the line brings, and keeps few bytes waiting.

    A message that does not fit in whole is lost.
    """
    kept, busy_until = [], 0
    for one in arrivals:
        begins, takes = max(busy_until, one.end_us), len(one.data) * READS_US
        if begins + takes - one.end_us <= ROOM_BYTES * READS_US:
            busy_until = begins + takes
            kept.append(one)
    return tuple(kept)


def with_status(arrivals: Arrivals) -> Arrivals:
    """What came with a status byte of its own, told by how long it took on the line."""
    return tuple(one for one in arrivals if one.end_us - one.start_us >= len(one.data) * BYTE_US)


def after_another_status(arrivals: Arrivals) -> Arrivals:
    """What comes from the first message on that is of another kind than the first of all.

    Of a line with running status a unit that joined late gets nothing until a status byte comes.
    """
    first = arrivals[0].data[0] if arrivals else 0
    place = next((n for n, one in enumerate(arrivals) if one.data[0] != first), len(arrivals))
    return arrivals[place:]


def _running_status(meant: Meant, unit: Unit) -> Iterator[Suspect]:
    """Only where something on the way leaves status bytes out."""
    network = meant.case.board.network
    makers = [maker_of(network, link) for link in _links_to(meant, unit)]
    if not any(maker is not None and leaves_status_out(maker) for maker in makers):
        return
    shows = {f"status {unit.id}": "first"}
    missed = _hearing(Kind.RUNNING_STATUS_MISSED, unit, with_status, shows)
    understands = unit.chart.receives.running_status
    yield missed if understands else replace(missed, odds=KNOWN_NOT_TO)
    yield _hearing(Kind.JOINED_LATE, unit, after_another_status, {})


def _links_to(meant: Meant, unit: Unit) -> Iterator[Link]:
    network = meant.case.board.network
    for jack in network.inputs_of(unit.id):
        yield from (link for link in network.inputs[jack] if link.carries is not False)


def _numbers(meant: Meant, unit: Unit) -> Iterator[Suspect]:
    """The unit’s own table of control numbers, where a press shows that it is another."""
    wanted = _plain_numbers(meant, unit)
    shows = MappingProxyType({f"controls {unit.id}": "other"})
    edits: list[tuple[Kind, Callable[[Readings], Readings]]]
    edits = [(Kind.CONTROL_RENUMBERED, _renumbered)] if wanted else []
    if len(wanted) > 1:
        edits.append((Kind.NUMBER_SHARED, _sharing(wanted[0], wanted[1])))
    for kind, make in edits:
        change = Change(
            key=f"{kind} {unit.id}", reach=Reach.EAR, on=unit.id, of_rig=_with_readings(unit, make)
        )
        yield Suspect(kind=kind, on=unit.id, what=unit.name, changes=(change,), shows=shows)


def _plain_numbers(meant: Meant, unit: Unit) -> list[int]:
    """Numbers of whole controls that the presses give a value to."""
    goals = (goal for (_, name), goal in meant.goals.items() if name == unit.id)
    ids = {one.control.id for goal in goals for one in goal.controls}
    return [
        number
        for number, readings in unit.chart.readings.plain.items()
        if any(one.control.id in ids and one.part is Part.WHOLE for one in readings)
    ]


def _with_readings(unit: Unit, make: Callable[[Readings], Readings]) -> Callable[[Rig], Rig]:
    def of_chart(chart: Chart) -> Chart:
        return replace(chart, readings=make(chart.readings))

    return lambda rig: with_unit(rig, unit.id, lambda one: with_chart(one, of_chart))


def _renumbered(readings: Readings) -> Readings:
    """Every plain control one number further on."""
    moved = {(number + 1) % 120: found for number, found in readings.plain.items()}
    return replace(readings, plain=MappingProxyType(moved))


def _sharing(first: int, second: int) -> Callable[[Readings], Readings]:
    """The second control listening to the number of the first, in place of its own."""

    def make(readings: Readings) -> Readings:
        plain: dict[int, tuple[Reading, ...]] = dict(readings.plain)
        plain[first] = (*plain.get(first, ()), *plain.pop(second, ()))
        return replace(readings, plain=MappingProxyType(plain))

    return make


def _low_voltage(meant: Meant, unit: Unit) -> Iterator[Suspect]:
    """An input without an isolator may want more than an output at 3.3 V gives (MIDI 1.0, CA-033).

    It is the two together that fail: another sender, or a box in between, cures it.
    """
    for link in _links_to(meant, unit):
        if link.on_wires and unit.chart.sockets[link.stop.socket].isolated is False:
            yield _too_low(unit, link.start)


def _too_low(unit: Unit, start: Jack) -> Suspect:
    change = Change(
        key=f"low {start} {unit.id}",
        silences=frozenset((start,)),
        reach=Reach.WIRES,
        on=unit.id,
        of_rig=lambda board: cut_at(board, start),
    )
    return Suspect(
        kind=Kind.LOW_VOLTAGE_OUT,
        on=unit.id,
        what=unit.name,
        changes=(change,),
        shows=MappingProxyType({f"buffer {unit.id}": "cures"}),
    )
