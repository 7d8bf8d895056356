"""Messages of ours to those of the MIDI library, and back: bytes are what both agree on."""

import mido  # type: ignore[import-untyped]  # it comes without types

from thruline.midi.decode import decode
from thruline.midi.encode import encode
from thruline.midi.message import Message


def to_mido(message: Message) -> mido.Message:
    """One message as the library's; the inverse of `from_mido`."""
    return mido.Message.from_bytes(encode(message))


def from_mido(message: mido.Message) -> Message:
    """One message of the library as ours; raises CannotUse for what is no message on a line."""
    return decode(bytes(message.bytes()))
