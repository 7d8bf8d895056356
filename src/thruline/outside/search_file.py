"""The search that belongs to a rig, as a file in the workshop."""

import json
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path
from typing import Any

from thruline.outside.files import read_bytes, take_away, write_atomically
from thruline.outside.folders import make_folder


class SearchFile:
    """The search for what is wrong with one rig, in a file named for where the rig lies."""

    def __init__(self, folder: Path, rig: str) -> None:
        self._folder = folder
        self._file = folder / f"{sha256(rig.encode()).hexdigest()[:32]}.json"
        self._rig = rig

    def recall(self) -> Mapping[str, Any] | None:
        """The search as plain data; None when there is none, or nothing that could be used.

        A file that something else spoiled must not keep the rig from a new search.
        """
        if not self._file.exists():
            return None
        try:
            found = json.loads(read_bytes(self._file))
        except (ValueError, RecursionError):
            return None
        if not isinstance(found, dict) or found.get("rig") != self._rig:
            return None
        search = found.get("search")
        return search if isinstance(search, dict) else None

    def keep(self, data: Mapping[str, Any] | None) -> None:
        """Keep a search in place of an earlier one, or none any more."""
        if data is None:
            if self._file.exists():
                take_away(self._file)
            return
        make_folder(self._folder, parents=True)
        write_atomically(self._file, json.dumps({"rig": self._rig, "search": data}) + "\n")
