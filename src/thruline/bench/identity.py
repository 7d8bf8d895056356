"""Who is there: the universal identity request, and the charts that fit the answers."""

from collections.abc import Iterable
from dataclasses import dataclass

from thruline.audit.capture import Caught
from thruline.midi.encode import encode
from thruline.midi.identity import (
    IdentityReply,
    IdentityRequest,
    maker_in_words,
    message_to_reply,
    reply_to_message,
    request_to_message,
)
from thruline.midi.message import SystemExclusive
from thruline.rig.chart import Chart

WAIT_US = 1_000_000
"""How long an answer may take; after that nobody will answer any more."""


@dataclass(frozen=True, slots=True)
class Answered:
    """One answer, and the ids of units whose charts it fits."""

    reply: IdentityReply
    units: tuple[str, ...]

    @property
    def says(self) -> str:
        """One sentence."""
        who = " or ".join(self.units) or "no unit of this rig"
        one = self.reply
        return (
            f"{who}: maker {maker_in_words(one.maker)}, family {one.family}, member {one.member}, "
            f"revision {one.revision.hex(' ').upper()}"
        )


def question() -> bytes:
    """The request to everybody."""
    return encode(request_to_message(IdentityRequest()))


def answers(events: Iterable[Caught], charts: Iterable[tuple[str, Chart]]) -> list[Answered]:
    """Every identity reply that came, each with the units that it may be."""
    known = list(charts)
    found = []
    for one in events:
        reply = message_to_reply(one.message) if isinstance(one.message, SystemExclusive) else None
        if reply is not None:
            units = tuple(unit for unit, chart in known if fits(reply, chart))
            found.append(Answered(reply, units))
    return found


def fits(reply: IdentityReply, chart: Chart) -> bool:
    """Whether maker, family and member of a reply are those of the chart."""
    return bool(chart.identity) and reply_to_message(reply).data[4:-4] == bytes(chart.identity)
