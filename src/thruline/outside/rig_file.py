"""The file of a rig document, as the desk sees it."""

from pathlib import Path

from thruline.outside.files import read_bytes, write_atomically, write_new


class RigFile:
    """A rig document on disk."""

    def __init__(self, file: Path) -> None:
        self._file = file

    @property
    def says(self) -> str:
        """The file as messages call it."""
        return str(self._file)

    def read(self) -> bytes:
        """All of it."""
        return read_bytes(self._file)

    def write(self, text: str, *, expected: bytes | None) -> None:
        """Put a text in place of the bytes expected there, or where no file is expected."""
        if expected is None:
            write_new(self._file, text)
        else:
            write_atomically(self._file, text, expected=expected)
