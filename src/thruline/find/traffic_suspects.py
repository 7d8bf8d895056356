"""What may be wrong with what is neither program nor control: dumps, sensing, notes, clock."""

from collections.abc import Iterator
from dataclasses import replace
from types import MappingProxyType

from thruline.find.hearing import clocks_at, dump_comes, sensed, wants_dumps
from thruline.find.kinds import Kind
from thruline.find.meant import Meant
from thruline.find.rig_edits import with_chart, with_unit
from thruline.find.suspect import Change, Reach, Suspect
from thruline.path.network import read_network
from thruline.rig.chart import Chart, Output, Traffic, Way
from thruline.rig.unit import Unit, takes_clock
from thruline.rig.whole import Rig


def traffic_suspects(meant: Meant) -> Iterator[Suspect]:
    """For every unit, in the order of the document."""
    network = meant.case.board.network
    cut_off = sensed(meant.rig, network)
    for unit in meant.rig.units.values():
        yield from _passing_dumps(meant, unit)
        if unit.id in cut_off:
            yield _shown(Kind.SENSING_STOPS, unit, "hold", "cut")
        if unit.chart.receives.note and network.inputs_of(unit.id):
            yield _shown(Kind.NOTE_HANGS, unit, "hold", "hangs")
            yield _shown(Kind.LOCAL_OFF, unit, "hold", "mute")
        if takes_clock(unit) and clocks_at(meant.rig, network, unit.id):
            yield _shown(Kind.CLOCK_UNSTEADY, unit, "clocked", "uneven")
        if _may_disturb(meant, unit):
            yield _shown(Kind.SENDS_AT_POWER_UP, unit, "boot", "disturbs")


def _shown(kind: Kind, unit: Unit, look: str, shows: str) -> Suspect:
    """A suspect that only one look shows: no press of a preset does."""
    seen = MappingProxyType({f"{look} {unit.id}": shows})
    return Suspect(kind=kind, on=unit.id, what=unit.name, shows=seen)


def _passing_dumps(meant: Meant, unit: Unit) -> Iterator[Suspect]:
    """A unit between the controller and one that takes dumps may hold those back."""
    rig, network = meant.rig, meant.case.board.network
    forwards = any(
        one.forwards and one.way is not Way.THRU_WIRE for one in network.outputs_of(unit.id)
    )
    behind = [one.id for one in rig.units.values() if one.id != unit.id and wants_dumps(one)]
    if not (forwards and behind):
        return

    def of_rig(board: Rig) -> Rig:
        return with_unit(board, unit.id, lambda one: with_chart(one, _holding_back))

    without = read_network(of_rig(rig))
    if any(dump_comes(rig, network, one) > dump_comes(rig, without, one) for one in behind):
        change = Change(
            key=f"{Kind.DUMPS_HELD_BACK} {unit.id}", reach=Reach.DUMPS, on=unit.id, of_rig=of_rig
        )
        yield Suspect(kind=Kind.DUMPS_HELD_BACK, on=unit.id, what=unit.name, changes=(change,))


def _holding_back(chart: Chart) -> Chart:
    outputs = {socket: _blocking(output) for socket, output in chart.outputs.items()}
    return replace(chart, outputs=MappingProxyType(outputs))


def _blocking(output: Output) -> Output:
    return replace(output, blocks=output.blocks | {Traffic.SYSTEM_EXCLUSIVE})


def _may_disturb(meant: Meant, unit: Unit) -> bool:
    """Whether what a unit sends of its own comes to somebody."""
    network = meant.case.board.network
    return any(
        carrier.sends_own and network.leaving.get(carrier.jack)
        for carrier in network.outputs_of(unit.id)
    )
