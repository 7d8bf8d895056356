"""The guard on the way out: nothing reaches a unit's memory, or resets it, unasked.

What plays and moves (program changes, control changes, notes, clock) passes. System exclusive may
write to memory and a system reset may forget what was being played, so neither does; of the
exclusives only questions that the standard defines as harmless pass.
"""

from thruline.base.errors import CannotUse
from thruline.bench.face import OutPort
from thruline.midi import specs
from thruline.midi.decode import decode
from thruline.midi.identity import message_to_request
from thruline.midi.message import SystemExclusive
from thruline.midi.specs import END_OF_EXCLUSIVE, FIRST_STATUS, KIND_OF_STATUS
from thruline.midi.words import counted, in_hex


class Guarded:
    """A port that lets nothing through which could write to a memory."""

    __slots__ = ("_port",)

    def __init__(self, port: OutPort) -> None:
        self._port = port

    @property
    def name(self) -> str:
        """What the system calls it."""
        return self._port.name

    @property
    def longest(self) -> int | None:
        """Bytes of the longest message that it carries; None where there is no such bound."""
        return self._port.longest

    def send(self, data: bytes) -> None:
        """Hand over one message. Raises CannotUse for what is held back, PortGone as the port."""
        refuse_unasked(data)
        self._port.send(data)

    def look(self) -> None:
        """See that it is there. Raises PortGone as the port."""
        self._port.look()

    def land(self) -> None:
        """Wait until everything has left. Raises PortGone as the port."""
        self._port.land()

    def close(self) -> None:
        """Let go of it."""
        self._port.close()


def refuse_unasked(data: bytes) -> None:
    """Raise CannotUse for a message that nobody may send without having been asked."""
    first = data[0] if data else 0
    if first != specs.EXCLUSIVE.status:
        _refuse_more_than_one(data)
        if first == specs.SYSTEM_RESET.status:
            raise CannotUse("a system reset is not sent: units would forget what is being played")
        return
    message = decode(data)
    if not isinstance(message, SystemExclusive) or message_to_request(message) is None:
        raise CannotUse(
            f"a system exclusive ({counted(len(data))}: {in_hex(data, most=8)}) is not sent: it "
            "may write to a unit's memory; `thruline restore` sends one, after it was confirmed"
        )


def _refuse_more_than_one(data: bytes) -> None:
    """Raise CannotUse when the bytes are no whole message, or more than one.

    As `decode` does, without making the message: this stands in the way of everything sent.
    """
    kind = KIND_OF_STATUS.get(data[0]) if data else None
    if (
        kind is None
        or not kind.defined
        or kind is END_OF_EXCLUSIVE
        or len(data) != 1 + len(kind.data)
        or max(data[1:], default=0) >= FIRST_STATUS
    ):
        raise CannotUse(
            f"{in_hex(data, most=8) or 'nothing'} is not sent: it is not one whole message, and "
            "what stands behind one may write to a unit's memory"
        )
