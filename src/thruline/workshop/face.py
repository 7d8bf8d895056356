"""What the workshop asks of the world."""

from dataclasses import dataclass
from typing import Protocol


@dataclass(frozen=True, slots=True)
class Sheet:
    """A document as it was found: how to call it in messages, and its bytes."""

    file: str
    content: bytes


class Shelf(Protocol):
    """A place where charts stand."""

    def find(self, chart_id: str) -> Sheet | None:
        """The chart of this id; None when it is not on this shelf."""
        ...

    def ids(self) -> tuple[str, ...]:
        """The ids of all charts on this shelf, sorted."""
        ...

    @property
    def says(self) -> str:
        """The shelf in words: "the charts folder beside the rig"."""
        ...
