import os

from thruline import desk_wiring, wiring
from thruline.app.desk import open_desk


def test_a_rig_is_kept_in_its_file_and_in_the_workshop(tmp_path, monkeypatch):
    monkeypatch.setenv(wiring.WORKSHOP_VARIABLE, str(tmp_path / "deep" / "workshop"))
    monkeypatch.delenv(desk_wiring.STORE_VARIABLE, raising=False)
    file = tmp_path / "board.rig.toml"
    wiring.write_rig(file, wiring.first_board_text())
    desk = open_desk(desk_wiring.keeping_for(file))
    desk_wiring.keeping_for(file).file.write("# new\n" + desk.text, expected=desk.content)
    again = open_desk(desk_wiring.keeping_for(file))
    assert again.history.undo == (1,)
    assert (tmp_path / "deep" / "workshop" / "workshop.sqlite").is_file()


def test_what_a_kill_left_beside_the_rig_and_its_charts_is_cleared(tmp_path, monkeypatch):
    monkeypatch.setenv(wiring.WORKSHOP_VARIABLE, str(tmp_path / "workshop"))
    monkeypatch.delenv(desk_wiring.STORE_VARIABLE, raising=False)
    (tmp_path / "charts").mkdir()
    stale = [".board.rig.toml.0123456789ab.new", "charts/.echo.chart.toml.0123456789ab.new"]
    others = [".other.rig.toml.0123456789ab.new", "charts/.notes.txt.0123456789ab.new"]
    for name in (*stale, *others):
        (tmp_path / name).touch()
        os.utime(tmp_path / name, (1, 1))
    desk_wiring.keeping_for(tmp_path / "board.rig.toml")
    assert [name for name in (*stale, *others) if (tmp_path / name).exists()] == others


def test_another_store_can_be_named(tmp_path, monkeypatch):
    monkeypatch.setenv(desk_wiring.STORE_VARIABLE, f"sqlite:///{tmp_path / 'other.sqlite'}")
    assert desk_wiring.keeping_for(tmp_path / "board.rig.toml").revisions.recall() is None
    assert (tmp_path / "other.sqlite").is_file()


def test_the_record_of_searches_is_in_the_same_store(tmp_path, monkeypatch):
    monkeypatch.setenv(desk_wiring.STORE_VARIABLE, f"sqlite:///{tmp_path / 'one.sqlite'}")
    assert desk_wiring.kept_searches().listed() == ()
    assert (
        desk_wiring.rig_in_store(tmp_path / "a" / ".." / "b.rig.toml")
        == (tmp_path.resolve() / "b.rig.toml").as_posix()
    )
