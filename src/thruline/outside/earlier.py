"""What stood in a document before each mend, kept beside it, the latest to be put back first."""

from hashlib import sha256
from itertools import count
from pathlib import Path

from thruline.base.errors import CannotUse
from thruline.outside.files import read_bytes, take_away, write_atomically


def write_keeping(place: Path, text: str, *, before: str) -> None:
    """Write a document that was read as `before`, and keep that beside it.

    Raises CannotUse when the file on disk is no longer `before`, WorldFailed when it cannot be
    written; the file is then as it was.
    """
    expected = before.encode()
    if read_bytes(place) == expected:  # otherwise nothing is written, and what is kept stays
        step = _steps_kept(place) + 1
        write_atomically(_kept(place, step), before)
        write_atomically(_mark(place, step), _digest(text.encode()))
    write_atomically(place, text, expected=expected)


def put_back(place: Path) -> int:
    """Put back what stood in a document before it was last written; how many more are kept.

    Raises CannotUse when there is no document, when nothing is kept, or when the document was
    changed since.
    """
    step = _steps_kept(place)
    if not step:
        read_bytes(place)
        raise CannotUse(f"nothing is kept to put back for {place}: no mend is left to take back")
    kept, mark = _kept(place, step), _mark(place, step)
    if mark.is_file() and read_bytes(mark).decode() != _digest(read_bytes(place)):
        raise CannotUse(
            f"{place} was changed since the mend was written, and that would be lost; "
            f"what stood there before is in {kept}"
        )
    write_atomically(place, read_bytes(kept).decode())
    take_away(kept)
    take_away(mark)
    return step - 1


def _steps_kept(place: Path) -> int:
    """How many mends of a document can be taken back, the latest first."""
    return next(step for step in count() if not _kept(place, step + 1).is_file())


def _kept(place: Path, step: int) -> Path:
    return place.with_name(f"{place.name}.before{_nth(step)}")


def _mark(place: Path, step: int) -> Path:
    """Where it is noted what the document was after the mend."""
    return place.with_name(f".{place.name}.mended{_nth(step)}")


def _nth(step: int) -> str:
    return "" if step == 1 else f"-{step}"


def _digest(content: bytes) -> str:
    return sha256(content).hexdigest()
