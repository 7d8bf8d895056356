"""Expression pedals: what is plugged into which input, and which sweeps use it."""

from collections.abc import Iterator

from thruline.rig.cable import Cable, Jack
from thruline.rig.chart import Governs
from thruline.rig.controller import PedalInput
from thruline.rig.sweep import Sweep
from thruline.rig.unit import Unit, meaning, setting_for
from thruline.rig.whole import Rig


def input_of(rig: Rig, sweep: Sweep) -> PedalInput | None:
    """The expression input that a sweep names; None when that socket is none."""
    return rig.units[sweep.pedal.unit].chart.pedals.get(sweep.pedal.socket)


def lead_of(rig: Rig, jack: Jack) -> Cable | None:
    """The lead plugged into an input."""
    return next((cable for cable in rig.cables if cable.stop == jack), None)


def pedal_at(rig: Rig, jack: Jack) -> Unit | None:
    """The pedal plugged into an input."""
    lead = lead_of(rig, jack)
    return rig.units[lead.start.unit] if lead else None


def inputs_in_use(rig: Rig) -> Iterator[tuple[Unit, PedalInput, Unit]]:
    """Every expression input with a pedal in it: the unit, the input, and the pedal."""
    for unit in rig.units.values():
        for one in unit.chart.pedals.values():
            pedal = pedal_at(rig, Jack(unit.id, one.socket))
            if pedal is not None:
                yield unit, one, pedal


def wiring_read(unit: Unit, one: PedalInput) -> str | None:
    """How an input reads its pedal, as it is set; None when that cannot be told."""
    if one.wiring != "either":
        return one.wiring
    setting = setting_for(unit, Governs.EXPRESSION_WIRING, one.socket)
    return meaning(unit, setting) if setting is not None else None
