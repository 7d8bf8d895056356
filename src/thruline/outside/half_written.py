"""What lies beside a file when the program was killed while it wrote it: named, and cleared away.

A text is written beside the file and then put in its place. After a kill in between, the first is
left over: it is of no use to anybody, since what was accepted stands in the file itself.
"""

import re
import secrets
import stat
import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

STALE_SECONDS = 600
"""So old is nothing that another workbench still writes."""
_LONGEST = 100
"""So much of a file's name is in the name beside it, which has to be one that a file can have."""
_BESIDE = re.compile(r"\.(.{1,100})\.[0-9a-f]{12}\.new", re.DOTALL)


def name_beside(file: Path) -> Path:
    """A name beside a file that nothing has yet."""
    return file.with_name(f".{file.name[:_LONGEST]}.{secrets.token_hex(6)}.new")


def clear_beside(file: Path) -> None:
    """Remove what is left over from writing one file."""
    clear_in(file.parent, is_ours=lambda name: name == file.name[:_LONGEST])


def clear_in(folder: Path, *, is_ours: Callable[[str], bool]) -> None:
    """Remove what is left over in a folder from writing the files whose names are ours.

    What is young, a link or a folder stays. So does what cannot be removed: it does no harm.
    """
    with suppress(OSError):
        for one in list(folder.iterdir()):
            named = _BESIDE.fullmatch(one.name)
            if named is not None and is_ours(named[1]):
                with suppress(OSError):
                    _remove_if_stale(one)


def _remove_if_stale(file: Path) -> None:
    found = file.lstat()
    if stat.S_ISREG(found.st_mode) and found.st_mtime < time.time() - STALE_SECONDS:
        file.unlink()
