"""A folder to run commands in, with a workshop of its own, gone afterwards."""

import os
import tempfile
from collections.abc import Iterator
from contextlib import chdir, contextmanager
from pathlib import Path

from thruline.wiring import WORKSHOP_VARIABLE


@contextmanager
def scratch() -> Iterator[Path]:
    """Work in an empty folder; where one is and where charts are looked up is put back after."""
    before = os.environ.get(WORKSHOP_VARIABLE)
    with tempfile.TemporaryDirectory() as folder, chdir(folder):
        os.environ[WORKSHOP_VARIABLE] = str(Path(folder) / "workshop")
        try:
            yield Path(folder)
        finally:
            if before is None:
                del os.environ[WORKSHOP_VARIABLE]
            else:
                os.environ[WORKSHOP_VARIABLE] = before
