import errno
import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.permissions import KEPT, WITHIN
from thruline.base.errors import CannotUse, WorldFailed
from thruline.outside import files
from thruline.outside.files import check_place, read_bytes, write_atomically, write_new

POSIX = pytest.mark.skipif(sys.platform == "win32", reason="permissions and links of POSIX")
OLD, NEW = "name = 'old'\n", "name = 'new'\r\n"


@pytest.fixture
def rig(tmp_path):
    file = tmp_path / "board.rig.toml"
    file.write_text(OLD)
    return file


def names(folder):
    return sorted(one.name for one in folder.iterdir())


def test_what_is_written_is_read_back_byte_for_byte(rig):
    write_atomically(rig, NEW)
    assert read_bytes(rig) == NEW.encode()
    assert names(rig.parent) == [rig.name]


def test_a_file_that_is_new(tmp_path):
    file = tmp_path / "new.rig.toml"
    write_new(file, NEW)
    assert read_bytes(file) == NEW.encode()
    with pytest.raises(CannotUse, match="there already"):
        write_new(file, OLD)
    assert read_bytes(file) == NEW.encode()


@pytest.mark.parametrize("name", ["zero.rig.toml", "noaudio.rig.toml", "x", ".toml"])
def test_a_missing_file_that_is_like_nothing_there_gets_no_guess(rig, name):
    with pytest.raises(CannotUse) as told:
        read_bytes(rig.with_name(name))
    assert "did you mean" not in told.value.says


@pytest.mark.parametrize("name", ["bord.rig.toml", "board", "board.toml", "board.rig.tmol"])
def test_a_slip_in_the_name_or_its_ending_is_guessed(rig, name):
    with pytest.raises(CannotUse, match=r"did you mean board\.rig\.toml\?"):
        read_bytes(rig.with_name(name))


def test_a_missing_file_names_the_nearest(rig):
    with pytest.raises(CannotUse, match=r"did you mean board\.rig\.toml\?"):
        read_bytes(rig.with_name("bord.rig.toml"))
    with pytest.raises(CannotUse, match=r"is not there$"):
        read_bytes(rig.with_name("zzz"))
    with pytest.raises(CannotUse, match="there is no folder"):
        read_bytes(rig.parent / "nowhere" / rig.name)


def test_a_folder_is_no_file(tmp_path):
    with pytest.raises(CannotUse, match="is a folder"):
        read_bytes(tmp_path)
    with pytest.raises(CannotUse, match="is a folder"):
        write_atomically(tmp_path, NEW)


@POSIX
def test_a_device_or_pipe_is_no_file(tmp_path):
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    for odd in (pipe, Path(os.devnull)):
        with pytest.raises(CannotUse, match="device or a pipe"):
            read_bytes(odd)
        with pytest.raises(CannotUse, match="device or a pipe"):
            write_atomically(odd, NEW)


def test_a_file_of_too_many_bytes(rig):
    assert read_bytes(rig, limit=len(OLD)) == OLD.encode()
    with pytest.raises(CannotUse, match="more than 4 bytes"):
        read_bytes(rig, limit=4)


@pytest.mark.parametrize("name", ["a\0b", "x" * 300])
def test_names_that_no_file_can_have(tmp_path, name):
    with pytest.raises(WorldFailed):
        read_bytes(tmp_path / name)
    with pytest.raises(WorldFailed):
        write_atomically(tmp_path / name, NEW)


def test_a_text_that_no_file_can_hold(rig):
    with pytest.raises(CannotUse, match="half a character"):
        write_atomically(rig, "\ud800")
    assert rig.read_text() == OLD


def test_a_folder_that_is_not_there(tmp_path):
    with pytest.raises(CannotUse, match="there is no folder"):
        write_atomically(tmp_path / "nowhere" / "a.toml", NEW)


def test_a_file_changed_meanwhile_is_left_alone(rig):
    write_atomically(rig, NEW, expected=OLD.encode())
    with pytest.raises(CannotUse, match="changed by something else"):
        write_atomically(rig, "third", expected=OLD.encode())
    assert rig.read_bytes() == NEW.encode()
    rig.unlink()
    with pytest.raises(CannotUse, match="has gone"):
        write_atomically(rig, "third", expected=NEW.encode())
    assert names(rig.parent) == []


@POSIX
def test_permissions_are_kept(rig):
    for mode in (0o600, 0o664, 0o755):
        rig.chmod(mode)
        write_atomically(rig, NEW)
        assert rig.stat().st_mode & 0o7777 == mode


@POSIX
def test_a_new_file_has_the_permissions_of_any_other(tmp_path):
    write_atomically(tmp_path / "a", NEW)
    (tmp_path / "b").write_text(NEW)
    assert (tmp_path / "a").stat().st_mode == (tmp_path / "b").stat().st_mode


@POSIX
def test_a_link_stays_a_link(rig):
    folder = rig.parent / "links"
    folder.mkdir()
    link = folder / "link.toml"
    link.symlink_to(Path("..") / rig.name)
    write_atomically(link, NEW, expected=OLD.encode())
    assert link.is_symlink()
    assert rig.read_bytes() == NEW.encode()
    assert names(folder) == [link.name]


@POSIX
def test_links_that_lead_nowhere_or_round(tmp_path):
    dangling, ring = tmp_path / "dangling", tmp_path / "ring"
    dangling.symlink_to("there")
    write_atomically(dangling, NEW)
    assert (tmp_path / "there").read_bytes() == NEW.encode()
    ring.symlink_to("ring")
    with pytest.raises(WorldFailed):
        read_bytes(ring)
    with pytest.raises(WorldFailed):
        write_atomically(ring, NEW)


WRITING = """
import sys
from pathlib import Path
from thruline.base.errors import WorldFailed
from thruline.outside.files import write_atomically
try:
    write_atomically(Path(sys.argv[1]), "new")
except WorldFailed as trouble:
    sys.exit(str(trouble))
"""


def refusal(file):
    """What a process says that may not pass permissions and writes this file."""
    child = [*WITHIN, sys.executable, "-c", WRITING, str(file)]
    done = subprocess.run(child, capture_output=True, text=True, check=False)
    assert done.returncode == 1
    return done.stderr


@POSIX
@KEPT
def test_a_write_protected_file_or_folder(rig):
    rig.chmod(0o444)
    assert "write-protected" in refusal(rig)
    rig.chmod(0o644)
    rig.parent.chmod(0o555)
    assert "permission denied" in refusal(rig)
    rig.parent.chmod(0o755)
    assert rig.read_text() == OLD


def test_a_write_protected_file_is_told_from_the_rest(rig, monkeypatch):
    monkeypatch.setattr(os, "access", lambda *_: False)
    with pytest.raises(WorldFailed, match="write-protected; what was there is as it was"):
        write_atomically(rig, NEW)
    assert rig.read_text() == OLD


@pytest.mark.parametrize("call", ["open", "write", "fsync", "fchmod", "close"])
@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EROFS, errno.EACCES, errno.EIO, errno.EDQUOT])
@POSIX
def test_whatever_fails_the_old_file_stays_and_nothing_is_left(rig, monkeypatch, call, code):
    real = getattr(os, call)

    def fail(*args, **kwargs):
        if call == "close":
            real(*args)
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr(os, call, fail)
    with pytest.raises(WorldFailed, match="what was there is as it was") as failed:
        write_atomically(rig, NEW)
    monkeypatch.undo()
    assert os.strerror(code).lower() in failed.value.says
    assert rig.read_text() == OLD
    assert names(rig.parent) == [rig.name]


def test_a_rename_that_fails(rig, monkeypatch):
    def fail(*_):
        raise PermissionError(errno.EACCES, "another program holds it open")

    monkeypatch.setattr(Path, "replace", fail)
    with pytest.raises(WorldFailed, match="another program holds it open"):
        write_atomically(rig, NEW)
    assert rig.read_text() == OLD
    assert names(rig.parent) == [rig.name]


def test_writes_that_take_only_a_part(rig, monkeypatch):
    real = os.write
    monkeypatch.setattr(os, "write", lambda opened, content: real(opened, content[:3]))
    write_atomically(rig, NEW)
    assert rig.read_bytes() == NEW.encode()


@POSIX
@pytest.mark.parametrize(("code", "is_told"), [(errno.EINVAL, False), (errno.EIO, True)])
def test_a_folder_that_cannot_be_synced(rig, monkeypatch, code, is_told):
    real, calls = os.fsync, []

    def fsync(opened):
        calls.append(opened)
        if len(calls) == 2:
            raise OSError(code, os.strerror(code))
        real(opened)

    monkeypatch.setattr(os, "fsync", fsync)
    if is_told:
        with pytest.raises(WorldFailed, match="is written, but a power cut may still undo it"):
            write_atomically(rig, NEW)
    else:
        write_atomically(rig, NEW)
    assert len(calls) == 2
    assert rig.read_bytes() == NEW.encode()


FULL = """
import resource, sys
from pathlib import Path
from thruline.base.errors import WorldFailed
from thruline.outside.files import write_atomically
resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))
try:
    write_atomically(Path(sys.argv[1]), "x" * 100_000)
except WorldFailed as failed:
    print(failed.says)
"""


@POSIX
def test_a_real_limit_on_the_size_of_files(rig):
    done = subprocess.run(
        [sys.executable, "-c", FULL, rig], capture_output=True, text=True, check=True
    )
    assert "file too large; what was there is as it was" in done.stdout
    assert rig.read_text() == OLD
    assert names(rig.parent) == [rig.name]


WRITER = """
import sys
from pathlib import Path
from thruline.outside.files import write_atomically
file = Path(sys.argv[1])
print("ready", flush=True)
for turn in range(10_000_000):
    write_atomically(file, "ab"[turn % 2] * 1_000_000)
"""


@POSIX
def test_killed_in_the_middle_of_writing_the_file_is_old_or_new(rig):
    rig.write_text("a" * 1_000_000)
    chance = random.Random(7)
    for _ in range(20):
        writer = subprocess.Popen([sys.executable, "-c", WRITER, rig], stdout=subprocess.PIPE)
        with writer:
            writer.stdout.readline()
            time.sleep(chance.uniform(0, 0.05))
            writer.send_signal(signal.SIGKILL)
        assert rig.read_text() in ("a" * 1_000_000, "b" * 1_000_000)
    assert len(names(rig.parent)) > 1, "no writer was caught at it"


def test_the_temporary_file_is_beside_the_file(rig, monkeypatch):
    seen = []
    monkeypatch.setattr(files, "_fill", lambda *_: seen.extend(names(rig.parent)))
    write_atomically(rig, NEW)
    hidden = [name for name in seen if name != rig.name]
    assert len(hidden) == 1
    assert hidden[0].startswith(".board.rig.toml.")


def test_a_place_is_looked_at_before_anything_is_written(rig, tmp_path):
    check_place(rig, is_new=False)
    check_place(tmp_path / "new", is_new=True)
    assert names(tmp_path) == [rig.name], "looking writes nothing"
    with pytest.raises(CannotUse, match="is there already"):
        check_place(rig, is_new=True)
    with pytest.raises(CannotUse, match="there is no folder"):
        check_place(tmp_path / "no" / "new", is_new=True)
    with pytest.raises(CannotUse, match="is a folder"):
        check_place(tmp_path, is_new=False)


def test_a_place_where_nothing_may_be_written_is_told(rig, monkeypatch):
    monkeypatch.setattr(files.os, "access", lambda *_: False)
    with pytest.raises(WorldFailed, match="write-protected"):
        check_place(rig, is_new=False)
