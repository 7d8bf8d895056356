"""Where the desk and the workshop store are joined to the world. Importing it does nothing."""

import json
import os
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from thruline.app.desk import Keeping
from thruline.base.errors import CannotUse
from thruline.outside.captures import Heard, captures_of
from thruline.outside.files import check_place, read_bytes, write_atomically
from thruline.outside.folders import make_folder
from thruline.outside.half_written import clear_beside, clear_in
from thruline.outside.rig_file import RigFile
from thruline.outside.search_file import SearchFile
from thruline.outside.shelves import ENDING as CHART_ENDING
from thruline.wiring import refuse_other_kinds, shelves_for, workshop_folder
from thruline.workshop.searches import Searches

STORE_VARIABLE = "THRULINE_STORE"
"""Names another database for revisions of rigs, by its address."""
SEARCHES = (".json",)
KEPT_SEARCH = "search: `thruline find --keep` writes one"


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


def read_answer_file(file: str | Path) -> Mapping[str, Any]:
    """An answer that `--json` wrote into a file.

    Raises CannotUse when it is not there or holds none, WorldFailed when it cannot be read.
    """
    return _object_in(file, "answer: redirect what `--json` prints into a file")


def read_search(file: str | Path) -> Mapping[str, Any]:
    """A search that was kept, as plain data.

    Raises CannotUse when it is not there or holds none, WorldFailed when it cannot be read.
    """
    found = _object_in(file, KEPT_SEARCH)
    if "place" not in found or not isinstance(found.get("steps"), list):
        raise CannotUse(f"{file} holds no {KEPT_SEARCH}")
    return found


def _object_in(file: str | Path, wanted: str) -> Mapping[str, Any]:
    """The JSON object in a file, or a refusal that says what is wanted."""
    try:
        found = json.loads(read_bytes(Path(file)))
    except (ValueError, RecursionError):
        found = None
    if not isinstance(found, dict):
        raise CannotUse(f"{file} holds no {wanted}")
    return found


def check_search(file: str | Path) -> None:
    """Raise before anybody answers anything what would keep a search from being kept there.

    Raises CannotUse when the name is not that of a search, or a file of that name holds something
    else; WorldFailed when it cannot be read or written.
    """
    refuse_other_kinds(Path(file), SEARCHES)
    check_place(Path(file), is_new=False)
    if os.path.lexists(file):
        try:
            read_search(file)
        except CannotUse as trouble:
            raise CannotUse(f"{trouble.says}; it is not overwritten, give another name") from None


def write_search(file: str | Path, text: str) -> None:
    """Keep a search, in place of an earlier one.

    Raises CannotUse as `check_search` does, WorldFailed when it cannot be written; what was there
    is then as it was.
    """
    check_search(file)
    write_atomically(Path(file), text)
