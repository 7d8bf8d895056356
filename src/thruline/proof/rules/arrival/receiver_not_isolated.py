"""A MIDI input without isolation: it joins the grounds of two units."""

from collections.abc import Iterator

from thruline.path.contacts import LinkState
from thruline.path.words import jack_in_words
from thruline.proof.bad_links import contacts, links_in
from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.socket import SocketKind


def _look(case: Case) -> Iterator[Result]:
    for link in links_in(case, {LinkState.NOT_ISOLATED}):
        stop = jack_in_words(case.rig.units, link.stop)
        yield RULE.finding(
            f"{stop} is not isolated: the cable joins its ground with that of "
            f"{case.rig.units[link.start.unit].name}, which may hum",
            *(cable.address for cable in link.cables),
            evidence=[contacts(case, link)],
        )
    for link in links_in(case, {LinkState.WORKS}):
        chart = case.rig.units[link.stop.unit].chart
        socket = chart.sockets[link.stop.socket]
        if socket.kind is SocketKind.MIDI_IN and socket.isolated is None:
            yield RULE.untold(
                f"whether the cable joins the grounds of {case.rig.units[link.start.unit].name} "
                f"and {case.rig.units[link.stop.unit].name} cannot be told",
                *(cable.address for cable in link.cables),
                lacks=f"isolated of socket {socket.id} in chart {chart.id}",
            )


_HOST = a_unit("host", "suntan-host")
_COMP = a_unit("comp", "nonpareil-compressor", "channel = 6")

RULE = Rule(
    id=rule_id(__name__),
    title="A MIDI input that is not isolated",
    severity=Severity.RISK,
    why=(
        "The standard keeps the grounds of two units apart with a light beam. A receiver without "
        "it works on many senders, ties the grounds together, and is the first suspect when the "
        "board hums."
    ),
    failing=board(
        _HOST,
        _COMP,
        a_cable(
            "host.aux-out",
            "comp.midi-in",
            'wiring = { tip = "ring", sleeve = "sleeve" }',
            ends="trs-3.5/trs-6.35",
        ),
    ),
    passing=board(DELAY, TO_DELAY),
    look_board=_look,
)
