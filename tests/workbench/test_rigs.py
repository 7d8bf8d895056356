from pathlib import Path

from thruline.workbench.rigs import name_of, names_of


def test_a_folder_has_the_rigs_whose_names_an_address_can_hold(folder):
    (folder / "notes.txt").write_text("x")
    (folder / "näh.rig.toml").write_text("x")
    assert names_of(folder) == ("found", "good")
    assert names_of(folder / "good.rig.toml") == ("good",)


def test_a_name_is_the_file_without_its_ending():
    assert name_of(Path("a/board.rig.toml")) == "board"
    assert name_of(Path("a/board.toml")) == "board"
