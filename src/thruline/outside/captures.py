"""Captures of one rig in a folder of the workshop, by their names."""

import re
from pathlib import Path

from thruline.audit.capture import Capture
from thruline.base.errors import CannotUse
from thruline.outside.capture_files import LogFile, read_capture_file
from thruline.outside.files import read_bytes
from thruline.outside.folders import make_folder, names_in

ENDING = ".capture"
BESIDE = (ENDING, ".mid")
"""How files end that may be captures, where they lie beside a rig."""
LARGEST = 64 << 20
_NAME = re.compile(r"[\w .+-]{1,80}")


class CaptureFolder:
    """A folder of captures."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def names(self) -> tuple[str, ...]:
        """What there is, the latest first. Raises WorldFailed when it cannot be looked into."""
        found = [one.removesuffix(ENDING) for one in names_in(self._folder) if _is_capture(one)]
        return tuple(reversed(found))

    def begin(self, name: str) -> tuple[str, LogFile]:
        """A new one to be written while one listens, and its name.

        Raises CannotUse when it cannot be called so, WorldFailed when it cannot be made.
        """
        make_folder(self._folder, parents=True)
        taken = self.names()
        names = [name, *(f"{name} {count}" for count in range(2, 100))]
        free = next((one for one in names if one not in taken), name)
        return free, LogFile(self._file(free))

    def read(self, name: str) -> Capture:
        """One that was kept. Raises CannotUse when there is none, WorldFailed when unreadable."""
        return read_capture_file(self._known(name))

    def text(self, name: str) -> bytes:
        """One as it was written; otherwise as `read`."""
        return read_bytes(self._known(name), limit=LARGEST)

    def _known(self, name: str) -> Path:
        if name not in self.names():
            raise CannotUse(f'there is no capture "{name}"; there are {", ".join(self.names())}')
        return self._file(name)

    def _file(self, name: str) -> Path:
        if not _NAME.fullmatch(name) or name.startswith("."):
            raise CannotUse(
                f'"{name}" is no name for a capture; use letters, digits, spaces, + - _'
            )
        return self._folder / f"{name}{ENDING}"


def captures_of(workshop: Path, rig: str) -> CaptureFolder:
    """Where the bench of a rig keeps what it hears; `rig` is its name on the workbench."""
    return CaptureFolder(workshop / "captures" / rig)


class Heard:
    """The captures of a rig: those of its bench by name, files beside the rig with their ending."""

    def __init__(self, bench: CaptureFolder | None, folder: Path) -> None:
        self._bench = bench
        self._folder = folder

    def names(self) -> tuple[str, ...]:
        """What there is, the latest of the bench first. Raises WorldFailed."""
        return (*(self._bench.names() if self._bench else ()), *self._beside())

    def read(self, name: str) -> Capture:
        """One of them. Raises CannotUse when there is none, WorldFailed when unreadable."""
        if name in self._beside():
            return read_capture_file(self._folder / name)
        if self._bench is not None and name in self._bench.names():
            return self._bench.read(name)
        there = ", ".join(self.names()) or "none yet"
        raise CannotUse(f'there is no capture "{name}" of this rig; there are {there}')

    def _beside(self) -> tuple[str, ...]:
        return tuple(one for one in names_in(self._folder) if one.endswith(BESIDE))


def _is_capture(file: str) -> bool:
    return file.endswith(ENDING) and bool(_NAME.fullmatch(file.removesuffix(ENDING)))
