import mido
import pytest
from hypothesis import given

from tests.midi.any_message import messages
from thruline.base.errors import CannotUse
from thruline.midi.message import ControlChange, Message, NoteOff, PitchBend, ProgramChange
from thruline.outside.mido_messages import from_mido, to_mido


@given(messages)
def test_messages_come_back(message: Message) -> None:
    assert from_mido(to_mido(message)) == message


@pytest.mark.parametrize(
    ("message", "theirs"),
    [
        (ProgramChange(3, 23), mido.Message("program_change", channel=2, program=23)),
        (ControlChange(1, 7, 9), mido.Message("control_change", channel=0, control=7, value=9)),
        (PitchBend(1), mido.Message("pitchwheel", channel=0, pitch=0)),
        (NoteOff(1, 60), mido.Message("note_on", channel=0, note=60, velocity=0)),
    ],
)
def test_both_mean_the_same(message: Message, theirs: mido.Message) -> None:
    assert to_mido(message) == theirs


def test_what_only_stands_in_files_is_no_message() -> None:
    with pytest.raises(CannotUse, match="not one system reset"):
        from_mido(mido.MetaMessage("set_tempo", tempo=500_000))
