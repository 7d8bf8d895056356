"""Folders: made, and looked into."""

from pathlib import Path

from thruline.base.errors import CannotUse, WorldFailed


def make_folder(folder: Path, *, parents: bool = False) -> None:
    """Make a folder if it is not there; the one that it lies in has to be, unless `parents`.

    Raises CannotUse when something else has its name or there is no folder to make it in,
    WorldFailed when it cannot be made.
    """
    try:
        folder.mkdir(parents=parents, exist_ok=True)
    except FileExistsError:
        raise CannotUse(f"{folder} is a file, not a folder") from None
    except FileNotFoundError:
        raise CannotUse(f"{folder} cannot be made: there is no folder {folder.parent}") from None
    except (OSError, ValueError) as trouble:
        raise WorldFailed(f"{folder} cannot be made: {_reason(trouble)}") from trouble


def names_in(folder: Path) -> tuple[str, ...]:
    """What lies in a folder, sorted; nothing when the folder is not there.

    Raises CannotUse when it is no folder, WorldFailed when it cannot be looked into.
    """
    try:
        return tuple(sorted(one.name for one in folder.iterdir()))
    except FileNotFoundError:
        return ()
    except NotADirectoryError:
        raise CannotUse(f"{folder} is a file, not a folder") from None
    except (OSError, ValueError) as trouble:
        raise WorldFailed(f"{folder} cannot be looked into: {_reason(trouble)}") from trouble


def _reason(trouble: OSError | ValueError) -> str:
    says = trouble.strerror if isinstance(trouble, OSError) else None
    return (says or str(trouble)).lower()
