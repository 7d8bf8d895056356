"""Revisions that are kept a moment later: whoever waits for an answer does not wait for the store.

The document is on disk by then, and that is what counts. A workbench that ends before the store was
told finds a document that is newer than its last revision, and makes a revision of it.
"""

from collections.abc import Callable

from thruline.workshop.face import Revisions
from thruline.workshop.history import History, KeptElsewhere, Revision


class LateRevisions:
    """The revisions of a rig, told to a store when there is time. All that asks waits for that."""

    def __init__(self, store: Revisions) -> None:
        self._store = store
        self._waiting: list[Callable[[], None]] = []

    def settle(self) -> None:
        """Tell the store all that waits.

        Raises KeptElsewhere when another workbench has kept something in between: what waited is
        then given up. Raises WorldFailed when the store cannot be reached: it goes on waiting.
        """
        while self._waiting:
            try:
                self._waiting[0]()
            except KeptElsewhere:
                self._waiting.clear()
                raise
            self._waiting.pop(0)

    def recall(self) -> History | None:
        """Where the rig stood when it was last kept."""
        self.settle()
        return self._store.recall()

    def keep(self, history: History, revision: Revision | None = None, text: str = "") -> None:
        """Note where the rig stands, and a new revision, when there is time."""
        self._waiting.append(lambda: self._store.keep(history, revision, text))

    def text(self, number: int) -> str:
        """What a revision holds."""
        self.settle()
        return self._store.text(number)

    def listed(self) -> tuple[Revision, ...]:
        """All revisions, the last first."""
        self.settle()
        return self._store.listed()

    def give_name(self, number: int, name: str) -> None:
        """Call a revision something."""
        self.settle()
        self._store.give_name(number, name)
