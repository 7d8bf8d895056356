"""Where the desk and the workshop store are joined to the world. Importing it does nothing."""

import os
from pathlib import Path

from thruline.app.desk import Keeping
from thruline.outside.captures import Heard, captures_of
from thruline.outside.folders import make_folder
from thruline.outside.half_written import clear_beside, clear_in
from thruline.outside.rig_file import RigFile
from thruline.outside.search_file import SearchFile
from thruline.outside.shelves import ENDING as CHART_ENDING
from thruline.wiring import shelves_for, workshop_folder
from thruline.workshop.searches import Searches

STORE_VARIABLE = "THRULINE_STORE"
"""Names another database for revisions of rigs, by its address."""


def keeping_for(file: Path, name: str = "") -> Keeping:
    """Where a rig document, its revisions and what was heard of it are kept.

    `name` is that of the rig on a workbench, whose bench keeps its captures by it.

    What was left over there by a program that was killed while it wrote is cleared away.
    Raises CannotUse or WorldFailed when the workshop store cannot be used.
    """
    from thruline.outside.charts_beside import ChartsFolder  # noqa: PLC0415 - as below
    from thruline.outside.store import (  # noqa: PLC0415 - heavy, and only for the workbench
        StoredRevisions,
        StoredSearches,
        open_store,
    )

    rig, stored, store = file.resolve(), rig_in_store(file), open_store(store_address())
    clear_beside(rig)
    clear_in(rig.parent / "charts", is_ours=lambda one: one.endswith(CHART_ENDING))
    return Keeping(
        file=RigFile(rig),
        revisions=StoredRevisions(store, stored),
        shelves=shelves_for(rig.parent),
        charts=ChartsFolder(rig.parent, store),
        search=SearchFile(workshop_folder() / "searches", stored),
        searches=StoredSearches(store),
        heard=Heard(captures_of(workshop_folder(), name) if name else None, rig.parent),
        rig=stored,
    )


def store_address() -> str:
    """The address of the workshop store. Raises WorldFailed when it has no folder to be in."""
    address = os.environ.get(STORE_VARIABLE)
    if not address:
        make_folder(workshop_folder(), parents=True)
        address = f"sqlite:///{workshop_folder() / 'workshop.sqlite'}"
    return address


def rig_in_store(file: str | Path) -> str:
    """The name under which the workshop store has the rig in a file."""
    return Path(file).resolve().as_posix()


def kept_searches() -> Searches:
    """The searches of the workshop. Raises CannotUse or WorldFailed when it cannot be used."""
    from thruline.outside.store import (  # noqa: PLC0415 - heavy, and not for every search
        StoredSearches,
        open_store,
    )

    return StoredSearches(open_store(store_address()))
