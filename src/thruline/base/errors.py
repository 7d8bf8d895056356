"""The program's own trouble, as one small tree.

    ThrulineError
    |-- CannotUse      what was given cannot be used              exit code 2
    |   `-- NotThere   a file that is not there
    `-- WorldFailed    a file, port or store did not do its part  exit code 3

What is wrong with a rig is never an error: that is a finding, and a value.
"""

EXIT_CLEAN = 0
"""Nothing is wrong."""
EXIT_FAULTS = 1
"""Faults were found."""
EXIT_CANNOT_USE = 2
"""The input cannot be used."""
EXIT_WORLD_FAILED = 3
"""The world failed: a port is gone, a file cannot be written."""


class ThrulineError(Exception):
    """Root of the tree. `says` is what a person reads: where, what, and what to do."""

    exit_code = EXIT_CANNOT_USE

    def __init__(self, says: str) -> None:
        super().__init__(says)
        self.says = says


class CannotUse(ThrulineError):
    """The input cannot be used: a document with problems, an unknown preset, a bad option."""

    exit_code = EXIT_CANNOT_USE


class NotThere(CannotUse):
    """The input is a file that is not there."""


class WorldFailed(ThrulineError):
    """The world outside failed: unreadable file, full disk, vanished port."""

    exit_code = EXIT_WORLD_FAILED
