"""The rigs that may be reached: of one file, or of one folder; and what addresses call them."""

import re
from pathlib import Path

from thruline.wiring import rigs_in

ENDING = ".rig.toml"
_NAME = re.compile(r"[A-Za-z0-9_][A-Za-z0-9_. -]{0,99}")


def names_of(place: Path) -> tuple[str, ...]:
    """What the rigs of a place, a document or a folder of them, are called in addresses of pages.

    Raises WorldFailed when the folder cannot be looked into.
    """
    if not place.is_dir():
        return (name_of(place),)
    return tuple(name for one in rigs_in(place) if _NAME.fullmatch(name := name_of(one)))


def name_of(file: Path) -> str:
    """What a rig is called in addresses of pages: its file without the ending."""
    return file.name.removesuffix(ENDING).removesuffix(".toml")
