"""A real receiver: presets that are sent change a software synthesiser as the plan says."""

import os
import shutil
import socket
import subprocess
import time
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.cli.running import ran
from tests.wires import kinds
from thruline.app.send import preset_step
from thruline.proof.case import Case
from thruline.wiring import open_file

pytestmark = kinds.IN_REAL_TIME

FONTS = Path("/usr/share/sounds/sf2")
RIG = """
format = 1
[rig]
name = "A synthesiser"
controller = "feet"
[[unit]]
id = "feet"
chart = "braeburn-six"
[[unit]]
id = "synth"
chart = "synth"
channel = 3
[[cable]]
from = "feet.midi-out-1"
to = "synth.midi-in"
ends = "din5/din5"
length = 300
[[preset]]
number = 1
name = "Strings"
synth = { program = "40", volume = 90 }
[[preset]]
number = 2
name = "Brass"
synth = { program = "61", volume = 70 }
"""
CHART = """
format = 1
[chart]
id = "synth"
maker = "Made"
model = "Synth"
kind = "synthesiser"
[[socket]]
id = "midi-in"
kind = "midi-in"
connector = "din5"
isolated = true
[channel]
factory = 1
[programs]
slots = { count = 128, first = 0 }
[receive]
program = true
control = true
[[control]]
id = "volume"
name = "Volume"
number = 7
"""


@pytest.fixture
def synth(tmp_path):
    """A synthesiser on a JACK server of its own; gives what asks it something."""
    pytest.importorskip("rtmidi", reason="the port library is not installed")
    with synthesiser(tmp_path) as asks:
        yield asks


@contextmanager
def synthesiser(tmp_path, *files):
    """One that plays these MIDI files, if any, and then stays; gives what asks it something."""
    fonts = sorted(FONTS.glob("*.sf2"))
    if shutil.which("fluidsynth") is None or not fonts:
        pytest.skip("no synthesiser is installed (on Debian: fluidsynth timgm6mb-soundfont)")
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        number = free.getsockname()[1]
    with kinds.jack_server(tmp_path), (tmp_path / "synth.log").open("wb") as log:
        server = os.environ["JACK_DEFAULT_SERVER"]
        options = {
            "audio.jack.server": server, "midi.jack.server": server, "midi.jack.id": "synth",
            "synth.sample-rate": "48000", "shell.port": str(number),
        }  # fmt: skip
        said = [word for key, value in options.items() for word in ("-o", f"{key}={value}")]
        command = ["fluidsynth", "-s", "-i", "-a", "jack", "-m", "jack", *said, str(fonts[0])]
        command += map(str, files)
        running = subprocess.Popen(command, stdout=log, stderr=log)
        try:
            yield lambda words: asked(number, words)
        finally:
            running.terminate()
            running.wait(10)


def asked(number, words, seconds=10):
    """What its shell answers."""
    end = time.monotonic() + seconds
    while True:
        try:
            with socket.create_connection(("127.0.0.1", number), 1) as shell:
                shell.settimeout(0.3)
                shell.sendall(f"{words}\n".encode())
                said = b""
                try:
                    while part := shell.recv(4096):
                        said += part
                except TimeoutError:
                    return said.decode(errors="replace")
        except ConnectionError:
            if time.monotonic() > end:
                raise
            time.sleep(0.1)


@pytest.fixture
def rig(tmp_path):
    (tmp_path / "charts").mkdir()
    (tmp_path / "charts" / "synth.chart.toml").write_text(CHART)
    file = tmp_path / "a.rig.toml"
    file.write_text(RIG)
    return file


def instrument(asks, channel):
    """The row that tells what plays on a channel."""
    said = asks("channels -verbose")
    return next(row for row in said.splitlines() if f"chan {channel - 1}," in row)


def plays(asks, program, seconds=10):
    """Whether channel 3 plays a program before long."""
    end = time.monotonic() + seconds
    while f"preset {program}," not in (row := instrument(asks, 3)):
        assert time.monotonic() < end, row
        time.sleep(0.05)


def test_presets_change_its_instrument(synth, capsys, rig):
    assert "chan 2" in synth("channels -verbose")
    for preset, program in ((1, 40), (2, 61), (1, 40)):
        done = ran(capsys, "send", rig, preset, "--port", "synth", "--yes")
        assert done.code == 0, done.err
        assert f"now shows program {program}" in done.out
        plays(synth, program)


@pytest.mark.parametrize("wanted", [("1",), ("2",), ("2", "1"), ()])
def test_midi_files_of_presets_play_to_the_instruments_of_the_plan(capsys, rig, tmp_path, wanted):
    _plays(capsys, rig, tmp_path / "show.mid", wanted)


@pytest.mark.parametrize("controller", ["pearmain-ten", "gilliflower-two"])
def test_a_track_for_each_output_plays_to_the_same_instruments(capsys, rig, tmp_path, controller):
    rig.write_text(RIG.replace("braeburn-six", controller))
    file = tmp_path / "show.mid"
    _plays(capsys, rig, file, ("2", "1"))
    assert file.read_bytes()[8:12] == bytes((0, 1, 0, 3))  # format 1; tempo, and two outputs


def _plays(capsys, rig, file, wanted):
    """A MIDI file is made, played, and the instrument is at last that of the plan."""
    tmp_path = file.parent
    assert ran(capsys, "export", rig, file, *wanted).code == 0
    (shown,) = preset_step(Case(open_file(rig).rig), int((wanted or ("2",))[-1])).shows
    with synthesiser(tmp_path, file) as asks:
        plays(asks, shown.program)
