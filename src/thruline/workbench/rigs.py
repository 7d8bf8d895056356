"""The rigs that may be reached: of one file, or of one folder; and what addresses call them."""

import re
from pathlib import Path

from thruline.document.problems import shown_text
from thruline.document.read import plain_data
from thruline.wiring import rig_called, rigs_in

ENDING = ".rig.toml"
LARGEST = 1 << 20
"""So many bytes of a document are looked through for its name."""
_NAME = re.compile(r"[A-Za-z0-9_][A-Za-z0-9_. -]{0,99}")


def names_of(place: Path) -> tuple[str, ...]:
    """What the rigs of a place, a document or a folder of them, are called in addresses of pages.

    Raises WorldFailed when the folder cannot be looked into.
    """
    if not place.is_dir():
        return (name_of(place),)
    return tuple(name for one in rigs_in(place) if _NAME.fullmatch(name := name_of(one)))


def title_of(file: Path) -> str:
    """What a rig calls itself; what addresses call it where its document cannot be read or asked.

    What stands before its first list is enough of a document, as long as that has the name.
    """
    try:
        with file.open("rb") as opened:
            text = opened.read(LARGEST).decode()
        head = plain_data(text.partition("\n[[")[0])
        return shown_text(str(head["rig"]["name"])).strip() or name_of(file)
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return name_of(file)


def name_of(file: Path) -> str:
    """What a rig is called in addresses of pages: its file without the ending."""
    return rig_called(file)
