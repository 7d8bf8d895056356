"""Charts begun for what nobody has a chart of: what was heard of it, and no more."""

from collections.abc import Iterator

from thruline.audit.travels import FINE_ABOVE, message_of
from thruline.base.edit import Plain
from thruline.learn.channels import OnChannel, moved_says
from thruline.learn.learned import Learned
from thruline.learn.travels import Moved
from thruline.rig.values import ControlMessage
from thruline.timing.receive import BANK_LSB, BANK_MSB

HEARD = "heard on the wire, and not read in a manual"
BANKS = {
    frozenset[int](): "none",
    frozenset((BANK_MSB,)): "msb",
    frozenset((BANK_LSB,)): "lsb",
    frozenset((BANK_MSB, BANK_LSB)): "both",
}


def begun_unit(chart_id: str, heard: OnChannel) -> dict[str, Plain]:
    """A chart of whatever listens on a channel. Its labels are the numbers of the wire."""
    found: dict[str, Plain] = {
        "format": 1,
        "chart": {
            "id": chart_id,
            "maker": "Unknown",
            "model": f"unit on channel {heard.channel}",
            "kind": "unknown unit",
            "about": "Begun from what a controller sends to it. What is not here nobody knows yet: "
            "sockets, settings, how long it loads, what its display shows.",
        },
        "source": [{"fact": "programs, controls", "from": HEARD}],
        "channel": {},
    }
    if heard.programs:
        found["programs"] = {
            **({"banks": {"count": 128, "first": 0}} if heard.banks else {}),
            "slots": {"count": 128, "first": 0},
            "separator": ":" if heard.banks else "",
            "bank-select": BANKS[heard.banks],
        }
    controls: list[Plain] = list(_controls(heard))
    if controls:
        found["control"] = controls
    return found


def _controls(heard: OnChannel) -> Iterator[dict[str, Plain]]:
    pairs = {moved.code + FINE_ABOVE for moved in heard.moved if moved.is_pair}
    moved = {moved.code for moved in heard.moved}
    for number in heard.controls:
        if number not in moved | pairs and number < 120:
            yield {"id": f"control-{number}", "name": f"Control {number}", "number": number}
    for one in heard.moved:
        yield _moved(one)


def _moved(moved: Moved) -> dict[str, Plain]:
    message, number = message_of(moved.code)
    if moved.is_pair:
        message = ControlMessage.CC14
    name = moved_says(moved)
    found: dict[str, Plain] = {
        "id": f"{'control' if message is ControlMessage.CC else message.value}-{number}",
        "name": name[:1].upper() + name[1:],
        "number": number,
    }
    if message is not ControlMessage.CC:
        found |= {"message": message.value, "high": 16383}
    return found


def begun_controller(chart_id: str, learned: Learned, *, pedals: int) -> dict[str, Plain]:
    """A chart of the controller itself: what it sends, and how fast."""
    most = max((len(one.agreed) for one in learned.presets), default=1)
    last = max((one.number for one in learned.presets), default=1)
    inputs = [f"exp-{number}" for number in range(1, pedals + 1)]
    used = {move.fitted.curve.name for one in learned.sweeps for move in one.moves}
    curves: list[Plain] = [*sorted(used)]
    found: dict[str, Plain] = {
        "format": 1,
        "chart": {
            "id": chart_id,
            "maker": "Unknown",
            "model": "controller",
            "kind": "foot controller",
            "about": "Begun from what it sends. The output and the pedal inputs are taken to be of "
            "the usual kind, and its numbers of presets and messages are the most that were heard.",
        },
        "source": [{"fact": "presets, messages, its own time", "from": HEARD}],
        "socket": [
            {"id": "midi-out", "kind": "midi-out", "connector": "din5"},
            *({"id": one, "kind": "expression-in", "connector": "trs-6.35"} for one in inputs),
        ],
        "output": [
            {"socket": "midi-out", "ways": ["own"], "running-status": learned.running_status}
        ],
        "controller": {
            "presets": max(1, len(learned.presets), last),
            "first-preset": min((one.number for one in learned.presets), default=1),
            "messages": max(1, min(512, 2 * most)),
            "order": "free",
            "pauses": {"step-ms": 1, "longest-ms": 10000},
            "programs-from": 0,
            "sends": ["program", "bank", "control", "control-14", "parameter", "raw"],
            "running-status": learned.running_status,
            "gap-us": learned.own_us,
        },
    }
    if inputs:
        moves = max((len(one.moves) for one in learned.sweeps), default=1)
        recalls = any(one.by_recall for one in learned.sweeps)
        found["pedal"] = [
            {"socket": one, "moves": moves, "curves": curves or ["linear"], "on-recall": recalls}
            for one in inputs
        ]
    return found
