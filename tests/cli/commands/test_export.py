"""`thruline export`."""

import mido
import pytest

from tests.cli.running import ran
from tests.samples.reading import ORCHARD


def test_a_file_for_each_and_bytes_beside(capsys, tmp_path):
    folder = tmp_path / "files"
    said = ran(capsys, "export", ORCHARD, folder, "3", "Swell", "--raw")
    assert said.code == 0
    names = sorted(one.name for one in folder.iterdir())
    assert names == [
        "preset-003-street-dawn.bin",
        "preset-003-street-dawn.mid",
        "sweep-swell.bin",
        "sweep-swell.mid",
    ]
    assert said.out.count("written to ") == len(names)
    for name in ("preset-003-street-dawn", "sweep-swell"):
        messages = mido.MidiFile(folder / f"{name}.mid").tracks[0]
        raw = b"".join(bytes(one.bytes()) for one in messages if not one.is_meta)
        assert raw == (folder / f"{name}.bin").read_bytes()


def test_one_file_of_all(capsys, tmp_path):
    file = tmp_path / "show.mid"
    found = ran(capsys, "export", ORCHARD, file, "--json").json
    assert found["written"] == [str(file)]
    marks = [one.text for one in mido.MidiFile(file, charset="utf8").tracks[0]
             if one.type == "marker"]  # fmt: skip
    assert marks == [one["title"] for one in found["pieces"]]


def test_one_file_of_bytes(capsys, tmp_path):
    file = tmp_path / "show.bin"
    found = ran(capsys, "export", ORCHARD, file, "1", "2", "--json").json
    assert len(file.read_bytes()) == sum(one["bytes"] for one in found["pieces"])


@pytest.mark.parametrize(
    ("to", "more", "says"),
    [
        ("a.syx", (), "system exclusive alone"),
        ("a.txt", (), "neither a folder nor a file"),
        ("a.mid", ("--raw",), "--raw is for a folder"),
        ("a.mid", ("99",), "there is no preset 99"),
        ("no-folder/at-all/a.mid", ("1",), "there is no folder"),
        ("no-folder/files", ("1",), "there is no folder"),
    ],
)
def test_what_cannot_be_written(capsys, tmp_path, to, more, says):
    said = ran(capsys, "export", ORCHARD, tmp_path / to, *more)
    assert said.code == 2
    assert says in said.err
    assert list(tmp_path.iterdir()) == []
