import xml.etree.ElementTree as ET
from pathlib import Path

import mido
import pytest

from tests.cli.running import ran
from tests.routed import case_of_two_lines, two_lines
from tests.samples.reading import AS_FOUND, ORCHARD
from thruline.midi.message import ProgramChange
from thruline.outside.midi_files import read_midi_file


@pytest.fixture(autouse=True)
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_preset_in_text(capsys):
    done = ran(capsys, "trace", ORCHARD, 7, "--from", 6)
    assert done.code == 0
    assert done.out.startswith('7 "Balcony", coming from 6 "Word from coast": all right at 60.8 ms')
    for says in ("◉", "Bramley Delay", "Messages", "B5 10 33", "Compared", "comes from"):
        assert says in done.out


def test_a_message_that_is_not_obeyed_is_a_fault(capsys):
    done = ran(capsys, "trace", AS_FOUND, 5)
    assert done.code == 1
    assert "5 messages are not obeyed" in done.out


def test_the_best_order_in_place_of_the_memory(capsys):
    held = ran(capsys, "trace", AS_FOUND, 5, "--as-stored", "--json").json
    best = ran(capsys, "trace", AS_FOUND, 5, "--best", "--json").json
    assert (held["as_stored"], best["as_stored"]) == (True, False)
    assert held["best"] == best["best"]


def test_every_byte(capsys):
    assert "On the wire" in ran(capsys, "trace", ORCHARD, 1, "--bytes").out
    assert "On the wire" not in ran(capsys, "trace", ORCHARD, 1).out


def test_json(capsys):
    told = ran(capsys, "trace", ORCHARD, 1, "--json").json
    assert (told["format"], told["answers"], told["written"]) == (1, "trace", [])
    assert told["all_obeyed"]


def test_a_drawing_and_a_midi_file(here, capsys):
    done = ran(capsys, "trace", ORCHARD, 1, "--svg", "a.svg", "--midi", "a.mid", "--dark")
    assert "written to a.svg" in done.out
    assert ET.fromstring((here / "a.svg").read_text()).get("role") == "img"  # noqa: S314 - ours
    read = read_midi_file(here / "a.mid")
    assert read.messages[0] == (160, ProgramChange(11, 0))


def test_outputs_that_do_not_carry_the_same_have_a_track_each(here, capsys):
    (here / "two.rig.toml").write_text(two_lines().document.text)
    done = ran(capsys, "trace", "two.rig.toml", 1, "--midi", "a.mid")
    assert done.code == 0
    file = mido.MidiFile(here / "a.mid")
    tempo, *tracks = file.tracks
    assert (file.type, [one.name for one in tracks]) == (1, ["LINE A", "LINE B"])
    assert all(one.is_meta for one in tempo)
    said = [[bytes(one.bytes()) for one in track if not one.is_meta] for track in tracks]
    case = case_of_two_lines()
    items = case.run(case.rig.presets[0]).sending.items
    for unit, data in zip(("delay", "echo"), said, strict=True):
        assert data == [item.data for item in items if item.unit == unit]
    ran(capsys, "export", "two.rig.toml", "b.mid", "1")
    for mine, theirs in zip(file.tracks[1:], mido.MidiFile(here / "b.mid").tracks[1:], strict=True):
        assert mine == theirs, "a preset that the memory holds nothing of is exported just so"


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("99",), 'the nearest are 22 "Lantern song"'),
        (("1", "--from", "99"), "there is no preset 99"),
        (("one",), "no preset of this rig is called"),
        (("1", "--as-stored"), "does not say what the controller holds"),
        (("1", "--svg", "no/folder/a.svg"), "there is no folder"),
    ],
)
def test_what_cannot_be_used(capsys, words, says):
    done = ran(capsys, "trace", ORCHARD, *words)
    assert done.code == 2
    assert says in done.err


def test_a_midi_file_that_cannot_be_written(capsys):
    assert ran(capsys, "trace", ORCHARD, 1, "--midi", "no/folder/a.mid").code in (2, 3)


@pytest.mark.parametrize("option", ["--svg", "--midi"])
def test_a_rig_is_never_drawn_over(
    option: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rig = tmp_path / "board.rig.toml"
    assert ran(capsys, "new", rig).code == 0
    before = rig.read_text()
    said = ran(capsys, "trace", rig, "1", option, rig)
    assert said.code == 2
    assert "should end in" in said.err
    assert rig.read_text() == before


def test_a_goal_that_cannot_be_sent_is_a_fault(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = Path(ORCHARD).read_text(encoding="utf-8")
    own = 'reverb = { program = 7, decay = "25 s" }'
    (here / "own.rig.toml").write_text(f'{text}\n[[preset]]\nnumber = 90\nname = "Long"\n{own}\n')
    done = ran(capsys, "trace", "own.rig.toml", 90)
    assert done.code == 1
    assert "1 thing asked for NOT SENT; the rest is right" in done.out
    assert "not sent: Pippin Reverb: Decay 25 s" in done.out
    told = ran(capsys, "trace", "own.rig.toml", 90, "--json").json
    assert (told["all_obeyed"], told["all_sent"]) == (True, False)
    assert [one["unit"] for one in told["not_sent"]] == ["reverb"]
