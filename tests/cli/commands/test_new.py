import pytest

from tests.cli.running import ran
from tests.samples.reading import CHART_FILES


@pytest.fixture(autouse=True)
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path / "workshop"))
    return tmp_path


def test_a_new_board_proves_clean(here, capsys):
    done = ran(capsys, "new", "my-board")
    assert done.code == 0
    assert done.out.startswith("WRITTEN  my-board.rig.toml\nMy board: 5 units; no faults, no risks")
    assert "thruline prove my-board.rig.toml" in done.out
    assert ran(capsys, "prove", "my-board.rig.toml").code == 0


def test_a_name_and_a_controller(here, capsys):
    words = ("--name", "Pit, stage left", "--controller", "braeburn-six", "--json")
    told = ran(capsys, "new", "pit.rig.toml", *words).json
    assert (told["rig"], told["controller"]) == ("Pit, stage left", "braeburn-six")
    assert 'name = "Pit, stage left"' in (here / "pit.rig.toml").read_text()


def test_what_to_type_next_reaches_a_shell_as_it_was_meant(capsys):
    done = ran(capsys, "new", "odd name")
    assert "thruline prove 'odd name.rig.toml'" in done.out
    assert "thruline chart embed 'odd name.rig.toml'" in done.out


@pytest.mark.parametrize("name", ["", ".rig.toml"])
def test_a_document_without_a_name_is_not_written(here, capsys, name):
    done = ran(capsys, "new", name)
    assert (done.code, done.out) == (2, "")
    assert not list(here.iterdir())


def test_nothing_is_overwritten(here, capsys):
    (here / "my-board.rig.toml").write_text("mine")
    done = ran(capsys, "new", "my-board")
    assert (done.code, done.out) == (2, "")
    assert "is there already; give another name, or move that one away" in done.err
    assert (here / "my-board.rig.toml").read_text() == "mine"


def test_no_folder_is_made(here, capsys):
    done = ran(capsys, "new", "nowhere/my-board")
    assert done.code == 2
    assert "there is no folder nowhere" in done.err
    assert not (here / "nowhere").exists()


def test_what_is_refused_is_not_written(here, capsys):
    done = ran(capsys, "new", "my-board", "--controller", "bramley-delay")
    assert (done.code, list(here.iterdir())) == (2, [])


def test_a_controller_that_the_board_does_not_suit_is_told(here, capsys):
    chart = next(file for file in CHART_FILES if "quarrenden" in file.name).read_text()
    chart = chart.replace('"quarrenden-three"', '"mine"')
    chart = chart.replace("millivolts = 9000", "millivolts = 48000")
    (here / "charts").mkdir()
    (here / "charts" / "mine.chart.toml").write_text(chart)
    done = ran(capsys, "new", "my-board", "--controller", "mine")
    assert done.code == 0
    assert "what does not fit yours, `prove` tells" in done.out
