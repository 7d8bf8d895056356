"""`thruline demo`. It takes a few seconds, so it is run twice for all of these tests."""

import contextlib
import io
import json
import shutil
import tomllib
import xml.etree.ElementTree as ET

import pytest

from tests.cli.running import Ran, ran
from thruline.app.demo import SAYS
from thruline.base.errors import WorldFailed
from thruline.cli.commands import demo
from thruline.cli.main import run


def contents(folder):
    return {file.name: file.read_bytes() for file in folder.iterdir()}


@pytest.fixture(scope="module")
def told(tmp_path_factory):
    """The folder that a first run leaves, and what it says."""
    folder = tmp_path_factory.mktemp("demo")
    said = io.StringIO()
    with contextlib.chdir(folder), contextlib.redirect_stdout(said):
        code = run(["demo"])
    return folder / "thruline-demo", Ran(code, said.getvalue(), "")


@pytest.fixture
def left(told, tmp_path, monkeypatch):
    """A copy of that folder, in the folder that one is in."""
    monkeypatch.chdir(tmp_path)
    return shutil.copytree(told[0], tmp_path / "left")


def test_the_whole_story(told):
    folder, done = told
    assert done.code == 0
    parts = ["THE RIG AS IT WAS FOUND", "STEP BY STEP", "WHAT REMAINS", "PROVED", "TRY NEXT"]
    places = [done.out.index(part) for part in parts]
    assert places == sorted(places)
    assert "invented" in done.out
    assert "\x1b" not in done.out
    assert max(map(len, done.out.splitlines())) <= 100
    assert set(SAYS) == set(contents(folder))
    assert all(f"\n  {name} " in done.out for name in SAYS)


def test_what_is_left_can_be_used(left, capsys):
    files = contents(left)
    assert ran(capsys, "prove", left / "mended.rig.toml").code == 0
    assert ran(capsys, "prove", left / "as-found.rig.toml").code == 1
    assert ET.fromstring(files["timing-chart.svg"]).tag.endswith("svg")  # noqa: S314 - our own
    tomllib.loads(files["mended.rig.toml"].decode())


def test_a_second_run_leaves_the_same_and_tells_other_programs(left, capsys):
    before = contents(left)
    done = ran(capsys, "demo", "left", "--json")
    assert (done.code, done.json["answers"]) == (0, "demo")
    assert done.json["mended"]["counts"]["fault"] == 0
    assert contents(left).keys() == before.keys()
    same = [name for name, content in contents(left).items() if content == before[name]]
    assert {"as-found.rig.toml", "mended.rig.toml", "timing-chart.svg"} <= set(same)
    json.dumps(done.json)


def test_nothing_of_a_person_is_touched(left, capsys):
    (left / "as-found.rig.toml").write_text("mine")
    own = left.parent / "own"
    own.mkdir()
    (own / "notes.txt").write_text("mine")
    for folder, says in ((left, "was changed since"), (own, "is not empty")):
        done = ran(capsys, "demo", folder)
        assert (done.code, done.out) == (2, "")
        assert says in done.err
    assert (left / "as-found.rig.toml").read_text() == "mine"


@pytest.mark.parametrize("folder", ["nowhere/demo", "file"])
def test_where_no_folder_can_be(tmp_path, monkeypatch, capsys, folder):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "file").touch()
    assert ran(capsys, "demo", folder).code == 2


def test_a_disk_that_is_full(tmp_path, capsys, monkeypatch):
    def fail(*_):
        raise WorldFailed("left/a cannot be written: no space left on device")

    monkeypatch.setattr(demo, "fill_demo_folder", fail)
    monkeypatch.setattr(demo, "left_files", lambda *_: {})
    monkeypatch.setattr(demo, "mending", lambda _state: iter(()))
    done = ran(capsys, "demo", tmp_path / "left")
    assert done.code == 3
    assert "no space left" in done.err
