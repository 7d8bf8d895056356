from collections.abc import Callable

import pytest

from thruline.base.errors import CannotUse
from thruline.midi.message import (
    ChannelPressure,
    ControlChange,
    Message,
    NoteOff,
    NoteOn,
    PitchBend,
    PolyPressure,
    ProgramChange,
    QuarterFrame,
    RealTimeKind,
    SongPosition,
    SongSelect,
    SystemExclusive,
)
from thruline.midi.specs import KINDS, Family

REFUSED: dict[str, Callable[[], Message]] = {
    "channel 0": lambda: ProgramChange(0, 5),
    "channel 17": lambda: ProgramChange(17, 5),
    "channel -1": lambda: NoteOff(-1, 5),
    "program 128": lambda: ProgramChange(1, 128),
    "program -1": lambda: ProgramChange(1, -1),
    "control 128": lambda: ControlChange(1, 128, 0),
    "value 128": lambda: ControlChange(1, 7, 128),
    "note 128": lambda: NoteOn(1, 128, 1),
    "velocity of a note on 0": lambda: NoteOn(1, 60, 0),
    "velocity 128": lambda: NoteOff(1, 60, 128),
    "pressure 128": lambda: PolyPressure(1, 60, 128),
    "pressure -1": lambda: ChannelPressure(1, -1),
    "bend 16384": lambda: PitchBend(1, 16384),
    "piece of a quarter frame 8": lambda: QuarterFrame(8, 0),
    "value of a quarter frame 16": lambda: QuarterFrame(0, 16),
    "song position 16384": lambda: SongPosition(16384),
    "song 128": lambda: SongSelect(128),
}


@pytest.mark.parametrize(("says", "build"), REFUSED.items(), ids=REFUSED)
def test_a_number_no_message_can_carry_is_refused(says: str, build: Callable[[], Message]) -> None:
    with pytest.raises(CannotUse, match=f"^{says} cannot be sent: a MIDI message carries"):
        build()


def test_the_limits_themselves_are_fine() -> None:
    assert ControlChange(16, 127, 127) != ControlChange(1, 0, 0)
    assert PitchBend(1, 16383) != PitchBend(1, 0)


def test_an_exclusive_of_eight_bit_data_is_refused() -> None:
    with pytest.raises(CannotUse, match="holds F7 hex at byte 1"):
        SystemExclusive(b"\x7d\xf7")


def test_a_bend_rests_at_its_centre() -> None:
    assert PitchBend(3).bend == 8192


def test_messages_of_unlike_kinds_are_never_equal() -> None:
    assert ProgramChange(1, 5) != ChannelPressure(1, 5)


def test_every_real_time_byte_has_its_kind() -> None:
    named = {kind.name for kind in KINDS if kind.family is Family.REAL_TIME and kind.defined}
    assert {kind.value for kind in RealTimeKind} == named
