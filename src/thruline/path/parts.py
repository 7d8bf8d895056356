"""Which units MIDI cables join in any way, whatever the settings are and whatever works."""

from thruline.rig.socket import MIDI_KINDS
from thruline.rig.whole import Rig


def parts_of(rig: Rig) -> dict[str, int]:
    """For each unit the number of its part of the board: that of the first unit in it.

    Neither settings nor faults count: what is deaf today may hear when it is mended. A controller
    sends everything on all its outputs, so it holds them together; what no cable joins yet is put
    with it.
    """
    joined = {name: {name} for name in rig.units}
    for cable in rig.cables:
        ends = (cable.start, cable.stop)
        if all(rig.units[jack.unit].chart.sockets[jack.socket].kind in MIDI_KINDS for jack in ends):
            both = joined[cable.start.unit] | joined[cable.stop.unit]
            joined |= dict.fromkeys(both, both)
    order = {name: number for number, name in enumerate(rig.units)}
    first = rig.controller.id if rig.controller else next(iter(rig.units))
    parts = {}
    for name, others in joined.items():
        alone = len(others) == 1
        parts[name] = min(order[one] for one in (joined[first] if alone else others))
    return parts
