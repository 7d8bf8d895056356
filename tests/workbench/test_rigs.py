from pathlib import Path

from thruline.workbench.rigs import name_of, names_of, title_of


def test_a_folder_has_the_rigs_whose_names_an_address_can_hold(folder):
    (folder / "notes.txt").write_text("x")
    (folder / "näh.rig.toml").write_text("x")
    assert names_of(folder) == ("found", "good")
    assert names_of(folder / "good.rig.toml") == ("good",)


def test_a_name_is_the_file_without_its_ending():
    assert name_of(Path("a/board.rig.toml")) == "board"
    assert name_of(Path("a/board.toml")) == "board"
    assert name_of(Path("a/board.PDF")) == "board", "backups of a rig are found from its book"


def test_a_rig_is_offered_by_what_it_calls_itself(folder):
    assert title_of(folder / "good.rig.toml").startswith("Orchard Street")
    late = folder / "late.rig.toml"
    for text, title in (
        ('format = 1\n[rig]\nname = "Pit \x1b[1m board"\n', "late"),
        ('format = 1\n[rig]\nname = "Pit board"\n[[preset\n', "Pit board"),
        ("[rig]\nname = 3", "3"),
        ("[[preset]]", "late"),
        ("rig = 3", "late"),
    ):
        late.write_text(text)
        assert title_of(late) == title
    late.write_bytes(b"\xff")
    assert title_of(late) == "late"
    assert title_of(folder / "gone.rig.toml") == "gone"
