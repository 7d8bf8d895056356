"""A cable from input to input, output to output, or between kinds that do not belong together."""

from collections.abc import Iterator, Mapping

from thruline.base.address import at
from thruline.base.edit import Edit, set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.cable import Cable
from thruline.rig.socket import GIVES, MIDI_KINDS, TAKES, Socket, SocketKind

KIND_WORDS: Mapping[SocketKind, str] = {kind: kind.value.replace("-", " ") for kind in SocketKind}


def _look(case: Case) -> Iterator[Result]:
    for cable in case.rig.cables:
        start, stop = (
            case.rig.units[jack.unit].chart.sockets[jack.socket]
            for jack in (cable.start, cable.stop)
        )
        trouble = _trouble(start, stop)
        if trouble:
            yield RULE.finding(
                f"the cable {cable.name} {trouble}",
                cable.address,
                evidence=[
                    facts(
                        (str(cable.start), KIND_WORDS[start.kind]),
                        (str(cable.stop), KIND_WORDS[stop.kind]),
                    )
                ],
                mends=_mends(cable, start, stop),
            )


def _trouble(start: Socket, stop: Socket) -> str | None:
    """What is wrong with joining these two, if anything."""
    if start.kind in GIVES and stop.kind in GIVES:
        return "joins two outputs; nothing listens"
    if start.kind in TAKES and stop.kind in TAKES:
        return "joins two inputs; nothing sends"
    if start.kind in TAKES or (stop.kind in GIVES and start.kind not in MIDI_KINDS):
        return "is written from the input to the output; write it from the output"
    if _family(start) != _family(stop):
        return f"joins {KIND_WORDS[start.kind]} with {KIND_WORDS[stop.kind]}"
    return None


def _family(socket: Socket) -> str:
    return "midi" if socket.kind in MIDI_KINDS else socket.kind.value.rsplit("-", 1)[0]


def _mends(cable: Cable, start: Socket, stop: Socket) -> Iterator[Mend]:
    if start.kind in TAKES and stop.kind in GIVES:
        yield Mend(f"Write the cable from {cable.stop} to {cable.start}", tuple(_turned(cable)))


def _turned(cable: Cable) -> Iterator[Edit]:
    """The edits that write a cable from its other end. The first of its sockets names it too."""
    yield set_to(cable.address.child("ends"), "/".join(reversed(cable.plugs)))
    if cable.wiring == "special":
        yield set_to(cable.address.child("wiring"), {b: a for a, b in cable.joins})
    yield set_to(cable.address.child("from"), str(cable.stop))
    half_turned = at("cable", f"{cable.stop}>{cable.stop}")
    yield set_to(half_turned.child("to"), str(cable.start))


RULE = Rule(
    id=rule_id(__name__),
    title="A cable the wrong way round",
    severity=Severity.FAULT,
    why=(
        "MIDI, sound and power go one way: out of an output and into an input. Two inputs joined "
        "stay silent, two outputs joined fight each other, and a lead into a socket of another "
        "kind can do harm."
    ),
    failing=board(DELAY, a_cable("feet.midi-out-1", "delay.midi-thru")),
    passing=board(DELAY, TO_DELAY),
    look_board=_look,
)
