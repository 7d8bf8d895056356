"""The one place where faces are joined to the world. Importing it does nothing."""

import os
from pathlib import Path

from thruline.app.load import Opened, open_rig
from thruline.outside.files import read_bytes
from thruline.outside.shelves import beside, own_shelf, sample_shelf
from thruline.workshop.face import Shelf

WORKSHOP_VARIABLE = "THRULINE_WORKSHOP"
"""Names another folder for the user's own workshop."""


def workshop_folder() -> Path:
    """The user's own workshop: a folder in the user's data folder, or the one named by
    `THRULINE_WORKSHOP`."""
    named = os.environ.get(WORKSHOP_VARIABLE)
    if named:
        return Path(named)
    from platformdirs import user_data_path  # noqa: PLC0415 - only where no folder is named

    return user_data_path("thruline", appauthor=False)


def shelves_for(folder: Path) -> tuple[Shelf, ...]:
    """Where charts are looked up for a rig in this folder."""
    return (beside(folder), own_shelf(workshop_folder()), sample_shelf())


def open_file(file: str | Path) -> Opened:
    """Open a rig document on disk.

    Raises CannotUse when the file is not there or cannot be used, WorldFailed when it cannot be
    read.
    """
    place = Path(file)
    return open_rig(read_bytes(place), file=str(file), shelves=shelves_for(place.parent))
