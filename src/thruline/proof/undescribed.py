"""What a rig does not describe, so that no rule says anything about it."""

from collections.abc import Iterator

from thruline.proof.power_leads import power_sockets
from thruline.rig.socket import SocketKind
from thruline.rig.whole import Rig

_SOUND = frozenset({SocketKind.AUDIO_IN, SocketKind.AUDIO_OUT})


def undescribed(rig: Rig) -> tuple[str, ...]:
    """The parts that units of the rig have a share in and the document is silent about."""
    return tuple(_parts(rig))


def _parts(rig: Rig) -> Iterator[str]:
    units = rig.units.values()
    kinds = {socket.kind for unit in units for socket in unit.chart.sockets.values()}
    wants_power = any(unit.chart.power is not None or power_sockets(unit) for unit in units)
    if wants_power and SocketKind.POWER_OUT not in kinds:
        yield "power"
    if rig.audio is None and kinds & _SOUND:
        yield "sound"
