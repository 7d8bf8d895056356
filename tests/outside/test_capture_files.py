import errno
from contextlib import suppress
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.audit.capture import Came, Capture, Note, NoteKind, caught
from thruline.audit.capture_text import write_capture
from thruline.base.errors import CannotUse, WorldFailed
from thruline.midi.file_encode import encode_file
from thruline.midi.message import ProgramChange
from thruline.outside.capture_files import LogFile, read_capture_file

ONE = Capture(lines=("Port A",), entries=(Came(640, 1, b"\xc2\x05"),))

SMF = b"MThd\0\0\0\6\0\0\0\1\0\x60MTrk\0\0\0\x20"


def test_each_kind_of_file(tmp_path):
    (tmp_path / "a.capture").write_text(write_capture(ONE))
    assert read_capture_file(tmp_path / "a.capture") == ONE
    (tmp_path / "b.mid").write_bytes(encode_file([(640, ProgramChange(3, 5))]))
    assert read_capture_file(tmp_path / "b.mid").entries == ONE.entries
    (tmp_path / "c.syx").write_bytes(b"\xf0\x7d\xf7")
    assert b"".join(one.data for one in read_capture_file(tmp_path / "c.syx").entries) == (
        b"\xf0\x7d\xf7"
    )


@pytest.mark.parametrize(
    ("name", "content", "says"),
    [
        ("a.txt", b"hello", "a.txt is no capture"),
        ("a.txt", b"thruline capture 1\nline 1 \xff\n", "row 2: this is no UTF-8 text"),
        ("a.txt", b"thruline capture 1\n0 1 C2\n", "a.txt, row 2: there is no line 1"),
        ("a.mid", b"hello", "a.mid"),
    ],
)
def test_a_wrong_file_is_told(tmp_path, name, content, says):
    (tmp_path / name).write_bytes(content)
    with pytest.raises(CannotUse, match=says):
        read_capture_file(tmp_path / name)


def test_a_log_grows_row_by_row(tmp_path):
    log = LogFile(tmp_path / "log")
    log.add(["a", "b"])
    assert (tmp_path / "log").read_text() == "a\nb\n", "what was added is there at once"
    log.close()
    with pytest.raises(CannotUse, match="is there already"):
        LogFile(tmp_path / "log")
    with pytest.raises(CannotUse, match="there is no folder"):
        LogFile(tmp_path / "no" / "log")


class FullDisk:
    def write(self, *_):
        raise OSError(errno.ENOSPC, "No space left on device")

    flush = fileno = write

    def close(self):
        pass


def test_a_full_disk_is_told(tmp_path):
    log = LogFile(tmp_path / "log")
    log.add(["a"])
    log._text.close()
    log._text = FullDisk()
    with pytest.raises(WorldFailed, match=r"no space left.*what was written stays"):
        log.add(["b"])
    assert (tmp_path / "log").read_text() == "a\n"
    with pytest.raises(WorldFailed, match="is not whole: no space left"):
        log.close()


class FullAtTheEnd(FullDisk):
    close = FullDisk.write


def test_a_disk_that_is_full_at_the_end_is_told_once(tmp_path):
    log = LogFile(tmp_path / "log")
    log._text.close()
    log._text = FullAtTheEnd()
    with pytest.raises(WorldFailed, match="is not whole: no space left"):
        log.close()


@pytest.mark.parametrize("name", ["a.capture", "a.mid", "a.syx"])
@given(raw=st.binary(max_size=400), begins=st.sampled_from([b"", b"thruline capture 1\n", SMF]))
def test_rubbish_is_a_capture_or_is_told(tmp_path_factory, name, raw, begins):
    file = tmp_path_factory.getbasetemp() / name
    file.write_bytes(begins + raw)
    with suppress(CannotUse):
        found = read_capture_file(file)
        assert all(1 <= one.line <= len(found.lines) for one in caught(found) if one.line)


def test_a_recording_cut_anywhere_is_told_or_read(tmp_path):
    file = tmp_path / "a.mid"
    file.write_bytes(encode_file([(640 * n, ProgramChange(3, n)) for n in range(9)]))
    whole = file.read_bytes()
    for length in range(len(whole)):
        file.write_bytes(whole[:length])
        with suppress(CannotUse):
            assert len(read_capture_file(file).entries) <= 9


def test_more_plain_bytes_than_a_person_would_capture_are_told(tmp_path, monkeypatch):
    monkeypatch.setattr("thruline.outside.capture_files.LARGEST_PLAIN", 10)
    (tmp_path / "a.syx").write_bytes(bytes(11))
    with pytest.raises(CannotUse, match="more than 10 bytes"):
        read_capture_file(tmp_path / "a.syx")


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-8-sig be"]
)
def test_what_editors_do_to_a_text_changes_nothing(tmp_path, encoding, ends):
    noted = Note(640, 0, NoteKind.PRESS, "12")
    whole = Capture(lines=("Gerät 🎸",), entries=(Came(600, 1, b"\xc2\x05"), noted))
    raw = write_capture(whole).replace("\n", ends)
    mark = "\ufeff" if encoding.endswith(" be") else ""
    file = tmp_path / "a.capture"
    file.write_bytes((mark + raw).encode("utf-16-be" if mark else encoding))
    assert read_capture_file(file) == whole


def test_another_encoding_is_named_with_its_row(tmp_path):
    file = tmp_path / "a.capture"
    file.write_bytes(write_capture(replace(ONE, lines=("Gerät",))).encode("latin-1"))
    with pytest.raises(CannotUse, match=r"row 2: this is no UTF-8 text.*save it again as UTF-8"):
        read_capture_file(file)
    file.write_bytes(write_capture(ONE).encode("utf-32"))
    with pytest.raises(CannotUse, match=r"a\.capture"):
        read_capture_file(file)


def test_a_letter_that_was_cut_in_half_takes_its_own_row_only(tmp_path):
    file = tmp_path / "a.capture"
    file.write_bytes(write_capture(ONE).encode() + "700 0 sweep Gerät".encode()[:-2])
    assert read_capture_file(file) == ONE
