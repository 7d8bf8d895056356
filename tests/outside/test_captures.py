import pytest

from thruline.audit.capture import Came
from thruline.audit.capture_text import entry_row, head_rows
from thruline.base.errors import CannotUse
from thruline.outside.captures import CaptureFolder


def kept(folder, name):
    name, log = folder.begin(name)
    log.add([*head_rows(("USB",)), entry_row(Came(640, 1, b"\xc0\x05"))])
    log.close()
    return name


def test_what_is_begun_is_read_again_the_latest_first(tmp_path):
    folder = CaptureFolder(tmp_path / "not" / "yet")
    assert folder.names() == ()
    assert [kept(folder, one) for one in ("2026-01-02", "2026-01-03")] == folder_names(folder)
    assert folder.read("2026-01-02").entries == (Came(640, 1, b"\xc0\x05"),)
    assert folder.text("2026-01-03").startswith(b"thruline capture 1\n")


def folder_names(folder):
    return list(reversed(folder.names()))


def test_two_of_one_moment_do_not_meet(tmp_path):
    folder = CaptureFolder(tmp_path)
    assert [kept(folder, "now"), kept(folder, "now")] == ["now", "now 2"]


@pytest.mark.parametrize("name", ["../secret", "", ".hidden", "a/b", "x" * 200])
def test_no_name_leads_out_of_the_folder(tmp_path, name):
    (tmp_path / "secret.capture").write_text("thruline capture 1\n")
    folder = CaptureFolder(tmp_path / "in")
    with pytest.raises(CannotUse):
        folder.begin(name)
    for read in (folder.read, folder.text):
        with pytest.raises(CannotUse, match="there is no capture"):
            read(name)
