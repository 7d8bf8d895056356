import pytest

from tools import write_reference
from tools.write_reference import stale, write

MADE = {"rules.md": "# Rules\n", "stages/rig.md": "# rig\n"}


@pytest.fixture
def place(tmp_path):
    folder = tmp_path / "pages"
    folder.mkdir()
    (folder / "python.md").write_text("by hand", encoding="utf-8")
    write(folder, MADE)
    return folder


def test_what_was_written_is_up_to_date(place) -> None:
    assert stale(place, MADE) == []
    assert (place / "python.md").read_text(encoding="utf-8") == "by hand"


def test_every_difference_is_told(place) -> None:
    (place / "rules.md").write_text("# Rulez\n", encoding="utf-8")
    (place / "stages/rig.md").rename(place / "stages/rug.md")
    told = [
        "stages/rig.md is missing",
        "rules.md is out of date",
        "stages/rug.md is made by nothing",
    ]
    assert stale(place, MADE) == told


def test_writing_again_mends_every_difference(place) -> None:
    (place / "old.md").touch()
    (place / "rules.md").unlink()
    write(place, MADE)
    assert stale(place, MADE) == []
    assert not (place / "old.md").exists()


def test_check_writes_nothing(place, monkeypatch, capsys) -> None:
    monkeypatch.setattr(write_reference, "PLACE", place)
    monkeypatch.setattr(write_reference, "SCHEMAS", place.parent / "schemas")
    monkeypatch.setattr(write_reference, "HOW", place.parent / "how")
    monkeypatch.setattr(write_reference, "pages", lambda: [*MADE.items(), ("new.md", "# New\n")])
    assert write_reference.main(["--check"]) == 1
    said = capsys.readouterr().out
    assert f"{place.as_posix()}/new.md is missing: run" in said
    assert "schemas/rig.schema.json is missing: run" in said
    assert write_reference.main([]) == 0
    assert write_reference.main(["--check"]) == 0


def test_pages_are_the_same_each_time() -> None:
    assert list(write_reference.pages()) == list(write_reference.pages())
