"""Files: read whole, and written whole; an interrupted write leaves what was there before."""

import difflib
import errno
import os
import stat
import sys
from contextlib import suppress
from pathlib import Path

from thruline.base.errors import CannotUse, NotThere, WorldFailed
from thruline.document.read import MAX_BYTES
from thruline.outside.half_written import name_beside

_NEW_FILE_MODE = 0o666  # less what the person's umask takes away
_MODE_BITS = 0o7777
_ALIKE = 0.6
"""How alike two names must be (difflib's ratio) for one to be offered for the other."""
_MOST_NAMED = 3
_NO_FOLDER_SYNC = (errno.EINVAL, errno.ENOTSUP, errno.EBADF, errno.EACCES, errno.EPERM)
"""What systems say that cannot sync a folder; there is nothing more to be done on them."""


def read_bytes(file: Path, *, limit: int = MAX_BYTES) -> bytes:
    """All bytes of a file.

    Raises NotThere (a CannotUse) when it is not there, naming the nearest that are; CannotUse when
    it is no file, or has more bytes than `limit`; WorldFailed when it cannot be read.
    """
    try:
        with _regular(file).open("rb") as opened:
            content = opened.read(limit + 1)
    except FileNotFoundError:
        raise NotThere(f"{file} is not there{_nearest(file)}") from None
    except (OSError, ValueError) as trouble:
        raise WorldFailed(f"{file} cannot be read: {_reason(trouble)}") from trouble
    if len(content) > limit:
        raise CannotUse(f"{file} has more than {limit:,} bytes, too many for what it should be")
    return content


def write_atomically(file: Path, text: str, *, expected: bytes | None = None) -> None:
    """Put a text into a file, whole: what was there stays until all of the new text is on disk.

    With `expected`, only if the file still holds these bytes: somebody may have changed it since
    it was read. A symbolic link stays one, and the file keeps its permissions. Raises CannotUse
    when the file has changed, or can hold no text; WorldFailed when it cannot be written, and
    then what was there is as it was.
    """
    try:
        content = text.encode()
    except UnicodeEncodeError:
        raise CannotUse(f"{file} cannot hold half a character (a lone surrogate)") from None
    write_raw(file, content, expected=expected)


def write_raw(file: Path, content: bytes, *, expected: bytes | None = None) -> None:
    """Put bytes into a file, whole; otherwise as `write_atomically`."""
    try:
        target = _regular(Path(os.path.realpath(file)))
        if expected is not None:
            _refuse_changed(file, target, expected)
        _replace(target, content)
    except FileNotFoundError:
        raise CannotUse(f"{file} cannot be written: there is no folder {file.parent}") from None
    except (OSError, ValueError) as trouble:
        raise WorldFailed(
            f"{file} cannot be written: {_reason(trouble)}; what was there is as it was"
        ) from trouble
    _sync_folder(file, target.parent)


def write_new(file: Path, text: str) -> None:
    """Put a text into a file that is not there yet; otherwise as `write_atomically`.

    Raises CannotUse when there is one of that name, WorldFailed when it cannot be written.
    """
    _refuse_old(file)
    write_atomically(file, text)


def check_place(file: Path, *, is_new: bool) -> None:
    """Raise now what writing a file would raise later, as far as that can be known before.

    With `is_new` there must be none of that name, as for `write_new`. For what is written at the
    end of long work.
    """
    if is_new:
        _refuse_old(file)
    target = _regular(Path(os.path.realpath(file)))
    if not target.parent.is_dir():
        raise CannotUse(f"{file} cannot be written: there is no folder {file.parent}")
    if not os.access(target if target.exists() else target.parent, os.W_OK):
        raise WorldFailed(f"{file} cannot be written: it, or its folder, is write-protected")


def _refuse_old(file: Path) -> None:
    if os.path.lexists(file):
        raise CannotUse(f"{file} is there already; give another name, or move that one away")


def take_away(file: Path) -> None:
    """Remove a file that this program has made. Raises WorldFailed when it cannot be removed."""
    try:
        file.unlink(missing_ok=True)
    except OSError as trouble:
        raise WorldFailed(f"{file} cannot be removed: {_reason(trouble)}") from None


def _regular(file: Path) -> Path:
    """The file, if it is one or is not there. Raises CannotUse for a folder, a device or a pipe."""
    try:
        mode = file.stat().st_mode
    except FileNotFoundError:
        return file
    if stat.S_ISDIR(mode):
        raise CannotUse(f"{file} is a folder, not a file")
    if not stat.S_ISREG(mode):
        raise CannotUse(f"{file} is not a file that can be kept (a device or a pipe)")
    return file


def _refuse_changed(file: Path, target: Path, expected: bytes) -> None:
    try:
        with target.open("rb") as opened:
            found = opened.read(len(expected) + 1)
    except FileNotFoundError:
        raise CannotUse(f"{file} has gone since it was read; nothing was written") from None
    if found != expected:
        raise CannotUse(
            f"{file} was changed by something else since it was read; nothing was written. "
            "Open it again, then repeat the change"
        )


def _replace(target: Path, content: bytes) -> None:
    """Write beside the target and put it in its place. Raises OSError; nothing is left behind."""
    old = target.stat() if target.exists() else None
    if old is not None and not os.access(target, os.W_OK):
        raise PermissionError(errno.EACCES, "the file is write-protected")
    beside = name_beside(target)
    opened = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _BINARY, _NEW_FILE_MODE)
    try:
        try:
            _fill(opened, content)
            if old is not None:
                _keep_owner_and_mode(opened, old)
        finally:
            os.close(opened)
        beside.replace(target)
    finally:
        with suppress(OSError):
            beside.unlink(missing_ok=True)


_BINARY = getattr(os, "O_BINARY", 0)  # Windows would write line ends of its own
"""A flag that only Windows has."""


def _fill(opened: int, content: bytes) -> None:
    left = memoryview(content)
    while left:
        left = left[os.write(opened, left) :]
    os.fsync(opened)


def _keep_owner_and_mode(opened: int, old: os.stat_result) -> None:
    if sys.platform == "win32":
        return
    made = os.fstat(opened)
    if (made.st_uid, made.st_gid) != (old.st_uid, old.st_gid):
        with suppress(OSError):  # only the superuser may give a file away
            os.fchown(opened, old.st_uid, old.st_gid)
    os.fchmod(opened, old.st_mode & _MODE_BITS)


def _sync_folder(file: Path, folder: Path) -> None:
    """Make sure that the new name is on disk too."""
    if sys.platform == "win32":  # a folder cannot be opened there
        return
    try:
        opened = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)
    except OSError as trouble:
        if trouble.errno not in _NO_FOLDER_SYNC:
            raise WorldFailed(
                f"{file} is written, but a power cut may still undo it: {_reason(trouble)}"
            ) from trouble


def _nearest(file: Path) -> str:
    """What in the folder is called most alike, as the rest of a sentence."""
    try:
        names = sorted(one.name for one in file.parent.iterdir())
    except OSError:
        return f": there is no folder {file.parent}"
    near = [name for name in names if _likeness(_stem(file.name), _stem(name)) >= _ALIKE]
    alike = sorted(near, key=lambda name: -_likeness(file.name, name))[:_MOST_NAMED]
    return f"; did you mean {' or '.join(alike)}?" if alike else ""


def _stem(name: str) -> str:
    """A name without its endings, which are alike for all documents."""
    return (name.lstrip(".").partition(".")[0] or name).lower()


def _likeness(one: str, other: str) -> float:
    return difflib.SequenceMatcher(a=one, b=other, autojunk=False).ratio()


def _reason(trouble: OSError | ValueError) -> str:
    """What the system says about it, in words. A ValueError is a name that no file can have."""
    says = trouble.strerror if isinstance(trouble, OSError) else None
    return (says or str(trouble)).lower()
