"""The charts in the folder of a rig, and the revisions of each."""

import tomllib
from pathlib import Path

from sqlalchemy import Engine

from thruline.outside.files import read_bytes, take_away, write_new
from thruline.outside.folders import make_folder, names_in
from thruline.outside.rig_file import RigFile
from thruline.outside.shelves import ENDING, beside
from thruline.outside.store import StoredRevisions


class ChartsFolder:
    """The `charts` folder in the folder of a rig document."""

    def __init__(self, folder: Path, store: Engine) -> None:
        self._rigs = folder
        self._folder = folder / "charts"
        self._shelf = beside(folder)
        self._store = store

    def ids(self) -> tuple[str, ...]:
        """The ids of all charts there."""
        return self._shelf.ids()

    def kept(self, chart_id: str) -> tuple[RigFile, StoredRevisions]:
        """Where one is kept."""
        file = self._folder / f"{chart_id}{ENDING}"
        return RigFile(file), StoredRevisions(self._store, file.as_posix())

    def lay(self, chart_id: str, text: str) -> None:
        """Write one that is not there yet."""
        make_folder(self._folder)
        write_new(self._folder / f"{chart_id}{ENDING}", text)

    def users(self, chart_id: str) -> tuple[str, ...]:
        """The rig documents beside it that name it, or cannot be read as what they should be."""
        rigs = (name for name in names_in(self._rigs) if name.endswith(".rig.toml"))
        return tuple(name for name in rigs if _may_name(read_bytes(self._rigs / name), chart_id))

    def take_away(self, chart_id: str) -> None:
        """Remove the file of one."""
        take_away(self._folder / f"{chart_id}{ENDING}")


def _may_name(content: bytes, chart_id: str) -> bool:
    """Whether a unit of a rig document has the chart, as far as can be told."""
    try:
        units = tomllib.loads(content.decode()).get("unit", [])
        return any(one.get("chart") == chart_id for one in units)
    except (ValueError, AttributeError, TypeError):
        return True
