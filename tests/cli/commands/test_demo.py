import tomllib
import xml.etree.ElementTree as ET

import pytest

from tests.cli.running import ran
from thruline.app.demo import SAYS
from thruline.base.errors import WorldFailed
from thruline.cli.commands import demo


@pytest.fixture(autouse=True)
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path / "workshop"))
    return tmp_path


def contents(folder):
    return {file.name: file.read_bytes() for file in folder.iterdir()}


def test_the_whole_story(here, capsys):
    done = ran(capsys, "demo")
    assert (done.code, done.err) == (0, "")
    parts = ["THE BOARD AS IT WAS FOUND", "STEP BY STEP", "WHAT REMAINS", "PROVED", "TRY NEXT"]
    places = [done.out.index(part) for part in parts]
    assert places == sorted(places)
    assert "invented" in done.out
    assert "\x1b" not in done.out
    assert max(map(len, done.out.splitlines())) <= 100
    assert set(SAYS) < set(contents(here / "thruline-demo"))


def test_what_is_left_can_be_used(here, capsys):
    ran(capsys, "demo", "left")
    left = contents(here / "left")
    assert ran(capsys, "prove", here / "left" / "mended.rig.toml").code == 0
    assert ran(capsys, "prove", here / "left" / "as-found.rig.toml").code == 1
    assert ET.fromstring(left["timing-chart.svg"]).tag.endswith("svg")  # noqa: S314 - our own
    tomllib.loads(left["mended.rig.toml"].decode())


def test_twice_is_the_same(here, capsys):
    first = ran(capsys, "demo")
    before = contents(here / "thruline-demo")
    assert ran(capsys, "demo") == first
    assert contents(here / "thruline-demo") == before


def test_for_other_programs(here, capsys):
    done = ran(capsys, "demo", "left", "--json")
    assert (done.code, done.json["answers"]) == (0, "demo")
    assert done.json["mended"]["counts"]["fault"] == 0
    assert (here / "left" / "mended.rig.toml").exists()


def test_nothing_of_a_person_is_touched(here, capsys):
    ran(capsys, "demo", "left")
    (here / "left" / "as-found.rig.toml").write_text("mine")
    (here / "own").mkdir()
    (here / "own" / "notes.txt").write_text("mine")
    for folder, says in (("left", "was changed since"), ("own", "is not empty")):
        done = ran(capsys, "demo", folder)
        assert (done.code, done.out) == (2, "")
        assert says in done.err
    assert (here / "left" / "as-found.rig.toml").read_text() == "mine"


@pytest.mark.parametrize("folder", ["nowhere/demo", "file"])
def test_where_no_folder_can_be(here, capsys, folder):
    (here / "file").touch()
    assert ran(capsys, "demo", folder).code == 2


def test_a_disk_that_is_full(capsys, monkeypatch):
    def fail(*_):
        raise WorldFailed("left/a cannot be written: no space left on device")

    monkeypatch.setattr(demo, "fill_demo_folder", fail)
    done = ran(capsys, "demo", "left")
    assert done.code == 3
    assert "no space left" in done.err
