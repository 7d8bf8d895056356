from pathlib import Path

import pytest

from thruline.base.errors import CannotUse, WorldFailed
from thruline.midi.message import (
    ControlChange,
    ProgramChange,
    RealTime,
    RealTimeKind,
    SystemExclusive,
    TimedMessage,
)
from thruline.outside import midi_files
from thruline.outside.midi_files import read_midi_file, write_midi_file

RECORDED: list[TimedMessage] = [
    (0, RealTime(RealTimeKind.START)),
    (640, ProgramChange(3, 23)),
    (1_600, ControlChange(3, 14, 64)),
    (20_000, RealTime(RealTimeKind.CLOCK)),
    (60_000_000, SystemExclusive(b"\x7d\x01")),
]


def test_a_recording_comes_back_from_a_file(tmp_path: Path) -> None:
    file = tmp_path / "line.mid"
    write_midi_file(file, RECORDED, name="foot controller to delay")
    recording = read_midi_file(file)
    assert recording.messages == tuple(RECORDED)
    assert recording.name == "foot controller to delay"
    assert recording.malformed == ()


def test_nothing_else_is_left_in_the_folder(tmp_path: Path) -> None:
    write_midi_file(tmp_path / "line.mid", RECORDED)
    assert [file.name for file in tmp_path.iterdir()] == ["line.mid"]


def test_a_file_is_replaced(tmp_path: Path) -> None:
    file = tmp_path / "line.mid"
    write_midi_file(file, RECORDED)
    write_midi_file(file, RECORDED[:1])
    assert read_midi_file(file).messages == tuple(RECORDED[:1])


def test_times_out_of_order_leave_the_old_file(tmp_path: Path) -> None:
    file = tmp_path / "line.mid"
    write_midi_file(file, RECORDED)
    with pytest.raises(CannotUse, match="in order of time"):
        write_midi_file(file, RECORDED[::-1])
    assert read_midi_file(file).messages == tuple(RECORDED)


@pytest.mark.parametrize("name", ["no-folder/line.mid", ""])
def test_a_name_that_is_no_place_for_a_file_cannot_be_used(tmp_path: Path, name: str) -> None:
    with pytest.raises(CannotUse, match=r"there is no folder|is a folder"):
        write_midi_file(tmp_path / name, RECORDED)
    assert list(tmp_path.iterdir()) == []


def test_a_name_that_no_file_can_have_is_the_worlds_trouble(tmp_path: Path) -> None:
    with pytest.raises(WorldFailed, match="cannot be written: "):
        write_midi_file(tmp_path / "line\0.mid", RECORDED)


def test_a_file_in_the_place_of_a_folder_is_the_worlds_trouble(tmp_path: Path) -> None:
    (tmp_path / "note").write_text("no folder")
    with pytest.raises(WorldFailed, match="cannot be written: not a directory"):
        write_midi_file(tmp_path / "note" / "line.mid", RECORDED)


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
    write_midi_file(file, RECORDED)
    monkeypatch.setattr(midi_files, "LARGEST_FILE", 10)
    with pytest.raises(CannotUse, match="more than 10 bytes"):
        read_midi_file(file)
