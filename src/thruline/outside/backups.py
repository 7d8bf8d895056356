"""Backups in a folder: for each rig and unit plain bytes, and a text of what was noted of them."""

import os
import re
from collections.abc import Mapping
from pathlib import Path

from thruline.base.errors import CannotUse
from thruline.outside.files import read_bytes, write_atomically, write_raw
from thruline.outside.folders import make_folder, names_in
from thruline.rig.nearest import nearest

LARGEST_DUMP = 16 << 20
"""Bytes; more than an hour on the wire."""
LONGEST_NAME = 80
_NAME = re.compile(rf"[\w .+-]{{1,{LONGEST_NAME}}}")


class BackupFolder:
    """A folder with one folder for each unit of a rig; `rig` is its name on the workbench.

    What was kept before rigs had folders of their own lies beside them, and can be fetched still.
    """

    def __init__(self, folder: Path, rig: str) -> None:
        self._folder = folder / rig
        self._before = folder

    def keep(self, unit: str, name: str, *, raw: bytes, facts: Mapping[str, str]) -> str:
        """Keep one; the file of its bytes. Nothing that was kept is ever written over.

        Raises CannotUse when there is one of that name already, or no file can be called so;
        WorldFailed when it cannot be written.
        """
        self.look_at_name(unit, name)
        file = self._folder / unit / f"{name}.syx"
        rows = "".join(f"{key}: {value}\n" for key, value in facts.items())
        make_folder(file.parent, parents=True)
        write_atomically(file.with_suffix(".txt"), rows)
        write_raw(file, raw)  # last, and whole or not at all: without it there is no backup
        return str(file)

    def look_at_name(self, unit: str, name: str) -> None:
        """Raise CannotUse when nothing more can be kept of a unit under this name."""
        if not _NAME.fullmatch(name) or name.startswith("."):
            raise CannotUse(
                f'"{name}" is no name for a backup; use at most {LONGEST_NAME} letters, digits, '
                "spaces and . + - _, no point first"
            )
        if any(os.path.lexists(one / f"{name}.syx") for one in self._places(unit)):
            raise CannotUse(f'there is a backup "{name}" of {unit} already; give another name')

    def fetch(self, unit: str, name: str) -> tuple[bytes, Mapping[str, str]]:
        """One that was kept.

        Raises CannotUse, naming what there is, when there is none; WorldFailed when it cannot be
        read.
        """
        names = self.names(unit)
        if name not in names:
            meant = nearest(name, names)
            known = f"there are {', '.join(names)}" if names else "none was kept yet"
            hint = f'did you mean "{meant}"?' if meant else known
            raise CannotUse(f'there is no backup "{name}" of {unit}; {hint}')
        folder = next(one for one in self._places(unit) if (one / f"{name}.syx").exists())
        raw = read_bytes(folder / f"{name}.syx", limit=LARGEST_DUMP)
        text = read_bytes(folder / f"{name}.txt").decode(errors="replace")
        pairs = (row.partition(": ") for row in text.splitlines())
        return raw, {key: value for key, _, value in pairs}

    def names(self, unit: str) -> tuple[str, ...]:
        """What was kept of a unit. Raises WorldFailed when the folder cannot be looked into."""
        found = dict.fromkeys(one for place in self._places(unit) for one in names_in(place))
        return tuple(one.removesuffix(".syx") for one in found if one.endswith(".syx"))

    def untold(self, unit: str) -> tuple[str, ...]:
        """Of those names the ones that were kept before it was noted of which rig."""
        own = names_in(self._folder / unit)
        before = [one for one in names_in(self._before / unit) if one not in own]
        return tuple(one.removesuffix(".syx") for one in before if one.endswith(".syx"))

    def _places(self, unit: str) -> tuple[Path, ...]:
        return self._folder / unit, self._before / unit
