from pathlib import Path

import pytest

from thruline.base.errors import CannotUse, WorldFailed
from thruline.midi.file_encode import encode_file
from thruline.midi.message import (
    ControlChange,
    ProgramChange,
    RealTime,
    RealTimeKind,
    SystemExclusive,
    TimedMessage,
)
from thruline.outside import midi_files
from thruline.outside.midi_files import read_midi_file

RECORDED: list[TimedMessage] = [
    (0, RealTime(RealTimeKind.START)),
    (640, ProgramChange(3, 23)),
    (1_600, ControlChange(3, 14, 64)),
    (20_000, RealTime(RealTimeKind.CLOCK)),
    (60_000_000, SystemExclusive(b"\x7d\x01")),
]


def test_a_recording_is_read_from_a_file(tmp_path: Path) -> None:
    file = tmp_path / "line.mid"
    file.write_bytes(encode_file(RECORDED, name="foot controller to delay"))
    recording = read_midi_file(file)
    assert recording.messages == tuple(RECORDED)
    assert recording.name == "foot controller to delay"
    assert recording.malformed == ()


@pytest.mark.parametrize(("name", "says"), [("missing.mid", "is not there"), (".", "is a folder")])
def test_what_is_no_file_cannot_be_used(tmp_path: Path, name: str, says: str) -> None:
    with pytest.raises(CannotUse, match=says):
        read_midi_file(tmp_path / name)


def test_what_cannot_be_read_is_the_worlds_trouble(tmp_path: Path) -> None:
    with pytest.raises(WorldFailed, match="cannot be read: "):
        read_midi_file(tmp_path / "line\0.mid")


def test_what_is_no_midi_file_cannot_be_used(tmp_path: Path) -> None:
    file = tmp_path / "line.mid"
    file.write_text("no recording")
    with pytest.raises(CannotUse, match=r"line\.mid: this is not a MIDI file"):
        read_midi_file(file)


def test_what_is_far_too_large_cannot_be_used(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "line.mid"
    file.write_bytes(encode_file(RECORDED))
    monkeypatch.setattr(midi_files, "LARGEST_FILE", 10)
    with pytest.raises(CannotUse, match="more than 10 bytes"):
        read_midi_file(file)
