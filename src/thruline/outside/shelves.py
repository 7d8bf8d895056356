"""Shelves of charts: a folder on disk, and the samples that come with the program."""

from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

from thruline.outside.files import read_bytes
from thruline.workshop.face import Sheet

ENDING = ".chart.toml"


class FolderShelf:
    """Charts in a folder, each in a file called after its id."""

    def __init__(self, folder: Traversable, says: str, *, shown_as: str | None = None) -> None:
        self._folder = folder
        self._says = says
        self._shown_as = shown_as

    def find(self, chart_id: str) -> Sheet | None:
        """The chart of this id, if its file is there.

        Raises WorldFailed when it cannot be read, CannotUse when it is far too large.
        """
        file = self._folder / f"{chart_id}{ENDING}"
        if not file.is_file():
            return None
        shown = str(file) if self._shown_as is None else f"{self._shown_as}/{file.name}"
        return Sheet(shown, read_bytes(file) if isinstance(file, Path) else file.read_bytes())

    def ids(self) -> tuple[str, ...]:
        """The ids of all charts in the folder."""
        if not self._folder.is_dir():
            return ()
        names = (file.name for file in self._folder.iterdir())
        return tuple(sorted(name.removesuffix(ENDING) for name in names if name.endswith(ENDING)))

    @property
    def says(self) -> str:
        """The shelf in words."""
        return self._says


def beside(folder: Path) -> FolderShelf:
    """The `charts` folder in the folder of a rig document."""
    return FolderShelf(folder / "charts", "the charts folder beside the rig")


def sample_shelf() -> FolderShelf:
    """The invented charts that come with the program."""
    folder = files("thruline") / "samples" / "charts"
    return FolderShelf(folder, "the packaged samples", shown_as="samples/charts")


def own_shelf(folder: Path) -> FolderShelf:
    """The charts in the user's own workshop folder."""
    return FolderShelf(folder / "charts", "your workshop")
