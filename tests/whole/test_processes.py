"""thruline as the system runs it: exit codes, clean streams, and no traceback whatever is given."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.permissions import KEPT, WITHIN
from tests.samples.reading import AS_FOUND, CHART_FILES, FIRST_BOARD

POSIX = pytest.mark.skipif(sys.platform == "win32", reason="pipes and limits of POSIX")
UTF16 = "format = 1\n".encode("utf-16")


@pytest.fixture
def here(tmp_path):
    (tmp_path / "board.rig.toml").write_bytes(FIRST_BOARD.read_bytes())
    (tmp_path / "found.rig.toml").write_bytes(AS_FOUND.read_bytes())
    (tmp_path / "delay.chart.toml").write_bytes(CHART_FILES[0].read_bytes())
    (tmp_path / "utf16.rig.toml").write_bytes(UTF16)
    (tmp_path / "latin.rig.toml").write_bytes(b'format = 1\n[rig]\nname = "\xe9"\n')
    (tmp_path / "folder.rig.toml").mkdir()
    return tmp_path


def process(folder: Path, *words: str, within=(), **more):
    """`thruline` in a process of its own, in this folder; `within` runs it."""
    surroundings = os.environ | {"THRULINE_WORKSHOP": str(folder), "TERM": "xterm"}
    surroundings |= more.pop("env", {})
    return subprocess.run(
        [*within, sys.executable, "-m", "thruline", *words],
        cwd=folder, env=surroundings, check=False,
        **({"capture_output": True, "text": True, "encoding": "utf-8"} | more),
    )  # fmt: skip


def test_a_clean_board(here):
    done = process(here, "prove", "board.rig.toml")
    assert (done.returncode, done.stderr) == (0, "")
    assert "PROVED" in done.stdout
    assert "\x1b" not in done.stdout


def test_faults_and_one_object(here):
    done = process(here, "prove", "found.rig.toml", "--json")
    assert (done.returncode, done.stderr) == (1, "")
    assert json.loads(done.stdout)["counts"]["fault"] > 0


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["prove", "bord.rig.toml"], "did you mean board.rig.toml"),
        (["prove", "folder.rig.toml"], "is a folder, not a file"),
        (["prove", "delay.chart.toml"], "`thruline chart check delay.chart.toml` looks at it"),
        (["chart", "show", "board.rig.toml"], "`thruline prove board.rig.toml` looks at it"),
        (["mend", "utf16.rig.toml"], "this is UTF-16; save the file as UTF-8"),
        (["trace", "latin.rig.toml", "1"], "latin.rig.toml:3:9: the byte 0xE9 here is no UTF-8"),
        (["new", "board"], "is there already"),
        (["prov", "board.rig.toml"], 'did you mean "prove"?'),
        (["prove", ""], "'RIG': a file has a name, and this is empty"),
        (["new", ""], "a file has a name, and this is empty"),
        (["mend", "bord.rig.toml", "--undo"], "did you mean board.rig.toml"),
        (["new", "a", "--name", "a\x1b[2J"], '"a\\x1b[2J" cannot be the name of a rig'),
        (["prove", "x\x1b[2J.toml"], "x\\x1b[2J.toml is not there"),
    ],
)
def test_what_cannot_be_used(here, words, says):
    done = process(here, *words)
    assert (done.returncode, done.stdout) == (2, "")
    assert says in done.stderr
    assert "Traceback" not in done.stderr


@POSIX
@KEPT
@pytest.mark.parametrize("command", ["prove", "find", "workbench"])
def test_a_file_that_may_not_be_read(here, command):
    (here / "board.rig.toml").chmod(0)
    done = process(here, command, "board.rig.toml", within=WITHIN)
    assert (done.returncode, done.stdout) == (3, "")
    assert "permission denied" in done.stderr


@KEPT
def test_a_folder_of_rigs_that_may_not_be_looked_into(here):
    (here / "folder.rig.toml").chmod(0)
    done = process(here, "workbench", "folder.rig.toml", within=WITHIN)
    (here / "folder.rig.toml").chmod(0o755)
    assert (done.returncode, done.stdout) == (3, "")
    assert "permission denied" in done.stderr


LIMITED = """
import resource, sys
resource.setrlimit(resource.RLIMIT_FSIZE, (2048, 2048))
from thruline.cli.main import run
sys.exit(run(sys.argv[1:]))
"""


@POSIX
@pytest.mark.parametrize("words", [["new", "small"], ["chart", "embed", "board.rig.toml"]])
def test_a_disk_without_room(here, words):
    done = subprocess.run(
        [sys.executable, "-c", LIMITED, *words],
        cwd=here, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 3
    assert "file too large" in done.stderr
    assert "Traceback" not in done.stderr
    assert not (here / "small.rig.toml").exists()


@POSIX
def test_an_output_without_room(here):
    with Path("/dev/full").open("w") as full:
        done = process(here, "rules", capture_output=False, stdout=full, stderr=subprocess.PIPE)
    assert done.returncode == 3
    assert done.stderr == "the system failed: No space left on device\n"


@POSIX
def test_a_reader_who_has_seen_enough(here):
    reading, writing = os.pipe()
    os.close(reading)
    done = process(here, "rules", capture_output=False, stdout=writing, stderr=subprocess.PIPE)
    os.close(writing)
    assert (done.returncode, done.stderr) == (141, "")


def test_a_terminal_that_knows_few_letters(here):
    done = process(here, "trace", "board.rig.toml", "1", env={"PYTHONIOENCODING": "ascii"})
    assert done.returncode == 0
    assert done.stdout.isascii()
    done = process(here, "chart", "list", "--json", env={"PYTHONIOENCODING": "ascii"})
    assert json.loads(done.stdout)["charts"]
