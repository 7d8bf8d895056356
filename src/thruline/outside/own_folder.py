"""A folder that a command fills by itself, and may fill again: never over anything of a person's.

A list of checksums in it says what was made, in the form that `sha256sum --check` reads. A folder
with other things and no such list is somebody's; a file that is no longer as the list says was
changed by somebody. Either stops the command before it writes anything.
"""

import hashlib
from collections.abc import Iterator, Mapping
from pathlib import Path

from thruline.base.errors import CannotUse
from thruline.outside.files import read_bytes, write_atomically
from thruline.outside.folders import make_folder, names_in

MADE = "made-here.sha256"


def open_own_folder(folder: Path) -> None:
    """Make the folder, or make sure that everything in it that would be overwritten is ours.

    Raises CannotUse when it holds something that was not made here or was changed since;
    WorldFailed when it cannot be made or read.
    """
    make_folder(folder)
    names = names_in(folder)
    if not names:
        return
    if MADE not in names:
        raise CannotUse(
            f"{folder} is not empty, and what is in it was not made by this command; "
            "name another folder"
        )
    for name, made in _listed(folder / MADE):
        if name in names and _checksum(read_bytes(folder / name)) != made:
            raise CannotUse(
                f"{folder / name} was changed since it was made here; "
                "name another folder, or move that file away"
            )


def fill_own_folder(folder: Path, texts: Mapping[str, str]) -> None:
    """Write files by name into a folder that was opened, the list of checksums first.

    Raises CannotUse when something else of the name was put there meanwhile, WorldFailed when a
    file cannot be written.
    """
    sums = {name: _checksum(text.encode()) for name, text in sorted(texts.items())}
    write_atomically(folder / MADE, "".join(f"{made}  {name}\n" for name, made in sums.items()))
    for name, text in texts.items():
        write_atomically(folder / name, text)


def _listed(file: Path) -> Iterator[tuple[str, str]]:
    for row in read_bytes(file).decode(errors="replace").splitlines():
        made, _, name = row.partition("  ")
        yield name, made


def _checksum(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
