from tests.cli.running import ran
from tests.samples.reading import FIRST_BOARD


def test_it_says_where_it_is(capsys, tmp_path):
    file = tmp_path / "board.rig.toml"
    file.write_bytes(FIRST_BOARD.read_bytes())
    words = ("workbench", file, "--no-browser", "--stop-after", 0)
    assert "The workbench is at http://127.0.0.1:" in ran(capsys, *words).out
    told = ran(capsys, *words, "--json")
    assert told.code == 0
    assert told.json["address"].startswith("http://127.0.0.1:")
    assert told.json["folder"] == str(tmp_path.resolve())


def test_what_is_not_there_is_told(capsys, tmp_path):
    told = ran(capsys, "workbench", tmp_path / "nothing.rig.toml", "--no-browser")
    assert told.code == 2
    assert "is not there" in told.err
