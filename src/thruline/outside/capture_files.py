"""Captures in files: our own text, Standard MIDI Files, and plain bytes."""

import os
from contextlib import suppress
from pathlib import Path
from typing import TextIO

from thruline.audit.capture import Capture, capture_of, capture_of_bytes
from thruline.audit.capture_text import FIRST, read_capture
from thruline.base.errors import CannotUse, WorldFailed
from thruline.outside.files import read_bytes
from thruline.outside.midi_files import LARGEST_FILE, read_midi_file

MIDI_FILES = (".mid", ".midi")
PLAIN_BYTES = (".syx", ".bin", ".raw")
LARGEST_PLAIN = 4 << 20
"""Plain bytes; each becomes an entry of its own, and a full line takes 22 minutes for so many."""


def read_capture_file(file: Path) -> Capture:
    """The capture in a file, which is told apart by its name and its beginning.

    Raises CannotUse when it is none, WorldFailed when it cannot be read.
    """
    if file.suffix.lower() in MIDI_FILES:
        return capture_of(read_midi_file(file).messages, line=file.name)
    if file.suffix.lower() in PLAIN_BYTES:
        return capture_of_bytes(read_bytes(file, limit=LARGEST_PLAIN), line=file.name)
    raw = read_bytes(file, limit=LARGEST_FILE)
    if not raw.startswith(FIRST.encode()):
        raise CannotUse(
            f'{file} is no capture: one begins with the row "{FIRST}". Standard MIDI Files end in '
            f"{' or '.join(MIDI_FILES)}, plain bytes in {', '.join(PLAIN_BYTES)}"
        )
    try:
        return read_capture(raw.decode())
    except UnicodeDecodeError:
        raise CannotUse(f"{file} holds bytes that are no text, so it is damaged") from None
    except CannotUse as trouble:
        raise CannotUse(f"{file}, {trouble.says}") from trouble


class LogFile:
    """A text that grows; what was added is handed to the system at once.

    Raises CannotUse when there is a file of that name, WorldFailed when it cannot be made.
    """

    def __init__(self, file: Path) -> None:
        self._file = file
        try:
            self._text: TextIO = file.open("x", encoding="utf-8", newline="\n")
        except FileExistsError:
            raise CannotUse(f"{file} is there already; give another name") from None
        except FileNotFoundError:
            raise CannotUse(f"{file} cannot be written: there is no folder {file.parent}") from None
        except (OSError, ValueError) as trouble:
            raise WorldFailed(f"{file} cannot be written: {_reason(trouble)}") from trouble

    def add(self, rows: list[str]) -> None:
        """Write rows. Raises WorldFailed when the disk does not take them; then it is closed."""
        try:
            self._text.write("".join(f"{row}\n" for row in rows))
            self._text.flush()
        except (OSError, ValueError) as trouble:
            self._let_go()
            raise WorldFailed(
                f"{self._file} takes nothing more: {_reason(trouble)}; what was written stays"
            ) from trouble

    def close(self) -> None:
        """Put it on the disk for good. Raises WorldFailed when that fails."""
        try:
            self._text.flush()
            os.fsync(self._text.fileno())
        except (OSError, ValueError) as trouble:
            raise WorldFailed(f"{self._file} is not whole: {_reason(trouble)}") from trouble
        finally:
            self._let_go()

    def _let_go(self) -> None:
        with suppress(OSError, ValueError):  # what is still on its way cannot be written either
            self._text.close()


def _reason(trouble: OSError | ValueError) -> str:
    says = trouble.strerror if isinstance(trouble, OSError) else None
    return (says or str(trouble)).lower()
