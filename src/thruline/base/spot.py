"""Where a fact stands in a text."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Spot:
    """A place in a file, for people and editors: rows and columns count from 1.

    `length` is how many characters of that row the fact fills (0 when unknown).
    """

    file: str
    row: int
    column: int
    length: int = 0

    def __str__(self) -> str:
        return f"{self.file}:{self.row}:{self.column}"
