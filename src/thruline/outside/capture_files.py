"""Captures in files: our own text, Standard MIDI Files, and plain bytes."""

import codecs
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
_BEGINNINGS = {
    FIRST.encode(): "utf-8-sig",
    codecs.BOM_UTF8: "utf-8-sig",
    codecs.BOM_UTF16_LE: "utf-16",
    codecs.BOM_UTF16_BE: "utf-16",
    FIRST.encode("utf-16-le"): "utf-16-le",
    FIRST.encode("utf-16-be"): "utf-16-be",
}
"""How a capture may begin, with or without a byte order mark, and how it is read then."""
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
    text = _text(read_bytes(file, limit=LARGEST_FILE), file)
    if not text.startswith(FIRST):
        raise CannotUse(
            f'{file} is no capture: one begins with the row "{FIRST}". Standard MIDI Files end in '
            f"{' or '.join(MIDI_FILES)}, plain bytes in {', '.join(PLAIN_BYTES)}"
        )
    try:
        return read_capture(text)
    except CannotUse as trouble:
        raise CannotUse(f"{file}, {trouble.says}") from trouble


def _text(raw: bytes, file: Path) -> str:
    """The text of a capture, whatever editors did to its encoding and its line ends.

    Raises CannotUse for bytes that are no text. What does not even begin as a capture is read
    loosely, for it is refused anyhow; a letter that a power cut took half of is in the row that is
    left out.
    """
    encoding = next((name for start, name in _BEGINNINGS.items() if raw.startswith(start)), "")
    if encoding in ("", "utf-8-sig"):
        raw = raw[: raw.rfind(b"\n") + 1] or raw
    try:
        text = raw.decode(encoding or "utf-8", "strict" if encoding else "replace")
    except UnicodeDecodeError as trouble:
        row = raw[: trouble.start].count(b"\n") + 1
        raise CannotUse(
            f"{file}, row {row}: this is no {encoding.upper().removesuffix('-SIG')} text. If an "
            "editor saved it, save it again as UTF-8; if not, it is damaged"
        ) from None
    return text.replace("\r\n", "\n").replace("\r", "\n")


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
