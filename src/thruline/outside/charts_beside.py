"""The charts in the folder of a rig, and the revisions of each."""

from pathlib import Path

from sqlalchemy import Engine

from thruline.outside.files import write_new
from thruline.outside.folders import make_folder
from thruline.outside.rig_file import RigFile
from thruline.outside.shelves import ENDING, beside
from thruline.outside.store import StoredRevisions


class ChartsFolder:
    """The `charts` folder in the folder of a rig document."""

    def __init__(self, folder: Path, store: Engine) -> None:
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
