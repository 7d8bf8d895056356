"""Small changes of a resolved rig: one unit, one cable, one socket."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from types import MappingProxyType

from thruline.rig.cable import Cable, Jack
from thruline.rig.chart import Chart, Way
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig


def with_unit(rig: Rig, unit_id: str, make: Callable[[Unit], Unit]) -> Rig:
    """The rig with one unit changed; as it is where that unit is not part of it."""
    unit = rig.units.get(unit_id)
    if unit is None:
        return rig
    changed = make(unit)
    is_controller = rig.controller is not None and rig.controller.id == unit_id
    return replace(
        rig,
        units=MappingProxyType({**rig.units, unit_id: changed}),
        controller=changed if is_controller else rig.controller,
    )


def with_cables(rig: Rig, make: Callable[[Cable], Cable | None]) -> Rig:
    """The rig with every cable changed, or taken away, by `make`."""
    made = (make(cable) for cable in rig.cables)
    return replace(rig, cables=tuple(cable for cable in made if cable is not None))


def cable_key(cable: Cable) -> str:
    """What names a cable among all of its rig."""
    return cable.address.steps[-1].entry or cable.name


def with_cable(rig: Rig, key: str, make: Callable[[Cable], Cable | None]) -> Rig:
    """The rig with one cable changed or taken away."""
    return with_cables(rig, lambda cable: make(cable) if cable_key(cable) == key else cable)


def cut(cable: Cable) -> Cable:
    """The cable with none of its wires joined."""
    return replace(cable, joins=())


def cut_at(rig: Rig, *jacks: Jack) -> Rig:
    """The rig with sockets through which nothing gets, whatever is plugged in."""
    return with_cables(
        rig, lambda cable: cable if {cable.start, cable.stop}.isdisjoint(jacks) else cut(cable)
    )


def set_to(unit: Unit, settings: Mapping[str, str]) -> Unit:
    """The unit with menu items set otherwise."""
    return replace(unit, settings=MappingProxyType({**unit.settings, **settings}))


def with_chart(unit: Unit, make: Callable[[Chart], Chart]) -> Unit:
    """The unit behaving by another chart."""
    return replace(unit, chart=make(unit.chart))


def deaf(unit: Unit) -> Unit:
    """The unit hearing nothing; its electrical copies go on, whatever it sends itself does not."""
    return with_chart(unit, lambda chart: _silenced(chart, keeps_copies=True))


def dead(unit: Unit) -> Unit:
    """The unit as if switched off: it hears nothing and passes nothing on."""
    return with_chart(unit, lambda chart: _silenced(chart, keeps_copies=False))


def _silenced(chart: Chart, *, keeps_copies: bool) -> Chart:
    outputs = {
        socket: output
        if keeps_copies and output.ways == (Way.THRU_WIRE,)
        else replace(output, ways=(Way.OFF,))
        for socket, output in chart.outputs.items()
    }
    governing = {key: one for key, one in chart.settings.items() if one.socket not in outputs}
    sends = tuple(replace(one, setting=None, factory=False) for one in chart.sends)
    return replace(
        chart,
        outputs=MappingProxyType(outputs),
        settings=MappingProxyType(governing),
        sends=sends,
        channel=None,
    )
