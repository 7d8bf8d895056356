"""What the workshop asks of the world."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Protocol

from thruline.audit.capture import Capture
from thruline.workshop.history import History, Revision


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


class DocumentFile(Protocol):
    """The file of a rig document."""

    @property
    def says(self) -> str:
        """The file as messages call it."""
        ...

    def read(self) -> bytes:
        """All of it. Raises NotThere when it is not there, WorldFailed when it is unreadable."""
        ...

    def write(self, text: str, *, expected: bytes | None) -> None:
        """Put a text in place of the bytes expected there, whole or not at all.

        None stands for a file that is not there. Raises CannotUse when the file holds something
        else, WorldFailed when it cannot be written.
        """
        ...


class Revisions(Protocol):
    """The revisions of one rig, kept for good."""

    def recall(self) -> History | None:
        """Where the rig stood when it was last kept; None when it never was."""
        ...

    def keep(self, history: History, revision: Revision | None = None, text: str = "") -> None:
        """Note where the rig stands, and a new revision with its text, both or neither.

        Raises CannotUse when another workbench has kept something in between.
        """
        ...

    def text(self, number: int) -> str:
        """What a revision holds. Raises CannotUse when there is none of the number."""
        ...

    def listed(self) -> tuple[Revision, ...]:
        """All revisions, the last first."""
        ...

    def give_name(self, number: int, name: str) -> None:
        """Call a revision something; an empty name takes the name away."""
        ...


class SearchPlace(Protocol):
    """Where the search for what is wrong with one rig is kept, so that it outlives the program."""

    def recall(self) -> Mapping[str, Any] | None:
        """The search as plain data; None when there is none. Raises WorldFailed."""
        ...

    def keep(self, data: Mapping[str, Any] | None) -> None:
        """Keep a search in place of an earlier one, or none any more. Raises WorldFailed."""
        ...


class HeardPlace(Protocol):
    """Where captures of one rig are kept: what its bench heard, and files beside it."""

    def names(self) -> tuple[str, ...]:
        """What there is, the latest of the bench first. Raises WorldFailed."""
        ...

    def read(self, name: str) -> Capture:
        """One of them. Raises CannotUse when there is none of this name, WorldFailed."""
        ...


class ChartsBeside(Protocol):
    """The charts in the folder of a rig: those that can be worked on."""

    def ids(self) -> tuple[str, ...]:
        """The ids of all of them, sorted."""
        ...

    def kept(self, chart_id: str) -> tuple[DocumentFile, Revisions]:
        """Where one is kept: its file, and its revisions."""
        ...

    def lay(self, chart_id: str, text: str) -> None:
        """Write one that is not there yet.

        Raises CannotUse when there is one, WorldFailed when it cannot be written.
        """
        ...

    def users(self, chart_id: str) -> tuple[str, ...]:
        """The rig documents in the folder that may name it, by the names of their files, sorted.

        Raises WorldFailed when one cannot be read.
        """
        ...

    def take_away(self, chart_id: str) -> None:
        """Remove the file of one. Raises WorldFailed when it cannot be removed."""
        ...
