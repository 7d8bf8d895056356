import pytest

from thruline.audit.capture import Came
from thruline.audit.capture_text import entry_row, head_rows
from thruline.base.errors import CannotUse
from thruline.outside.captures import CaptureFolder, Heard


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


def test_a_rig_is_heard_at_its_bench_and_beside_it(tmp_path):
    bench, beside = CaptureFolder(tmp_path / "bench"), tmp_path / "rigs"
    beside.mkdir()
    text = "\n".join([*head_rows(("USB",)), entry_row(Came(640, 1, b"\xc0\x05")), ""])
    (beside / "tour.capture").write_text(text)
    (beside / "tour.rig.toml").write_text("")
    name = kept(bench, "evening")
    heard = Heard(bench, beside)
    assert heard.names() == (name, "tour.capture")
    assert heard.read("tour.capture") == heard.read(name)
    assert Heard(None, beside).names() == ("tour.capture",)
    for wrong in ("tour.rig.toml", "../bench/evening.capture", "morning"):
        with pytest.raises(CannotUse, match="there is no capture"):
            heard.read(wrong)
