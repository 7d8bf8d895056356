import pytest

from thruline.base.errors import CannotUse, WorldFailed
from thruline.outside.backups import BackupFolder

FACTS = {"unit": "delay", "sha256": "ab: c"}


def test_what_is_kept_is_fetched(tmp_path):
    store = BackupFolder(tmp_path / "not" / "yet", "pit")
    file = store.keep("delay", "before the tour", raw=b"\xf0\x01\xf7", facts=FACTS)
    assert file.endswith("before the tour.syx")
    assert store.fetch("delay", "before the tour") == (b"\xf0\x01\xf7", FACTS)


def test_nothing_is_written_over(tmp_path):
    store = BackupFolder(tmp_path, "pit")
    store.keep("delay", "a", raw=b"\xf0\x01\xf7", facts=FACTS)
    with pytest.raises(CannotUse, match="already"):
        store.keep("delay", "a", raw=b"\xf0\x02\xf7", facts={"unit": "other"})
    assert store.fetch("delay", "a") == (b"\xf0\x01\xf7", FACTS)


@pytest.mark.parametrize("name", ["../x", "", ".hidden", "a/b", "x" * 90])
def test_a_name_that_no_file_should_have(tmp_path, name):
    with pytest.raises(CannotUse, match="is no name for a backup"):
        BackupFolder(tmp_path, "pit").keep("delay", name, raw=b"", facts=FACTS)


def test_what_is_not_there(tmp_path):
    store = BackupFolder(tmp_path, "pit")
    with pytest.raises(CannotUse, match="none was kept yet"):
        store.fetch("delay", "a")
    store.keep("delay", "tour", raw=b"\xf0\x01\xf7", facts=FACTS)
    with pytest.raises(CannotUse, match='did you mean "tour"'):
        store.fetch("delay", "tours")


def test_a_full_disk_leaves_no_half_backup(tmp_path, monkeypatch):
    store = BackupFolder(tmp_path, "pit")

    def no_room(file, content):
        raise WorldFailed(f"{file} cannot be written: no space left on device")

    with monkeypatch.context() as full:
        full.setattr("thruline.outside.backups.write_raw", no_room)
        with pytest.raises(WorldFailed, match="no space left"):
            store.keep("delay", "a", raw=b"\xf0\x01\xf7", facts=FACTS)
    assert store.names("delay") == ()
    store.keep("delay", "a", raw=b"\xf0\x01\xf7", facts=FACTS)
    assert store.fetch("delay", "a") == (b"\xf0\x01\xf7", FACTS)


def test_a_name_is_looked_at_before_a_dump_comes(tmp_path):
    store = BackupFolder(tmp_path, "pit")
    store.look_at_name("delay", "before the tour")
    assert list(tmp_path.iterdir()) == []
    for name in ("../../x", ".x", "a" * 81, ""):
        with pytest.raises(CannotUse, match="at most 80 letters"):
            store.look_at_name("delay", name)
    store.keep("delay", "a", raw=b"\xf0\xf7", facts={})
    with pytest.raises(CannotUse, match="already; give another name"):
        store.look_at_name("delay", "a")


def test_units_of_two_rigs_have_nothing_to_do_with_one_another(tmp_path):
    pit, club = BackupFolder(tmp_path, "pit"), BackupFolder(tmp_path, "club")
    pit.keep("delay", "tour", raw=b"\xf0\x01\xf7", facts=FACTS)
    assert club.names("delay") == ()
    club.keep("delay", "tour", raw=b"\xf0\x02\xf7", facts=FACTS)
    assert pit.fetch("delay", "tour") == (b"\xf0\x01\xf7", FACTS)


def test_what_was_kept_without_a_rig_is_still_there(tmp_path):
    (tmp_path / "delay").mkdir()
    (tmp_path / "delay" / "old.syx").write_bytes(b"\xf0\x01\xf7")
    (tmp_path / "delay" / "old.txt").write_text("unit: delay\n")
    pit = BackupFolder(tmp_path, "pit")
    pit.keep("delay", "new", raw=b"\xf0\xf7", facts=FACTS)
    assert pit.names("delay") == ("new", "old")
    assert pit.untold("delay") == ("old",)
    assert pit.fetch("delay", "old") == (b"\xf0\x01\xf7", {"unit": "delay"})
    with pytest.raises(CannotUse, match="already"):
        pit.look_at_name("delay", "old")
