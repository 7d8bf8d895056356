"""What the bench page needs of a rig: what can be sent, where one can listen, what is warned of."""

from thruline.app.frame import Json
from thruline.app.send import CAUTION
from thruline.audit.meant import default_taps
from thruline.bench.telling import Kind
from thruline.proof.case import Case


def bench_view(case: Case) -> Json:
    """Presets, sweeps, units and sockets by name, and the caution about sound.

    `outputs` are those that the controller chooses from; none when it sends all over each.
    """
    rig = case.rig
    return {
        "caution": CAUTION,
        "lacks": ""
        if rig.controller is not None
        else "This rig has no foot controller, so nothing can be sent as from one. Choose one "
        "on the Units page; ports can be listened to all the same.",
        "presets": [{"number": one.number, "name": one.name} for one in rig.presets],
        "sweeps": [
            {"name": one.name, "moves": [f"{move.unit} {move.control.name}" for move in one.moves]}
            for one in rig.sweeps
        ],
        "units": [{"id": one.id, "name": one.name} for one in rig.units.values()],
        "sockets": [str(jack) for jack in case.board.roads.line_of],
        "outputs": list(case.board.routing.outputs),
        "usual": next(iter(default_taps(case)), "") if rig.controller is not None else "",
        "kinds": [one.value for one in Kind],
    }
