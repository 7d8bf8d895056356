"""The fault-finding card: the best first checks of a board, on a sheet of paper."""

from collections.abc import Iterable, Iterator

from thruline.find.card import Entry
from thruline.papers.paper import Paper, Section, table_of

ABOUT = (
    "For when it fails and nobody has the tool at hand. Begin at 1, and follow the answers.",
    "Unlikely answers are left out: whoever meets one begins again with the tool, or by asking.",
)
POWER = (
    "Isolate before rewiring; never open a mains supply. Start quiet, and protect your hearing. "
    "Local codes and licensed practice come first."
)


def fault_card(rig: str, entries: Iterable[Entry]) -> Paper:
    """The card of a rig as a paper."""
    sections = tuple(_section(entry) for entry in entries)
    return Paper(title=f"{rig}: when it fails", about=(*ABOUT, POWER), sections=sections)


def _section(entry: Entry) -> Section:
    return Section(
        title=f"{entry.number}. {entry.asks}",
        says=(entry.caution,) if entry.caution else (),
        table=table_of(("what you see", "what to do"), _rows(entry)),
    )


def _rows(entry: Entry) -> Iterator[tuple[str, str]]:
    for branch in entry.branches:
        if branch.goes_to is not None:
            yield branch.answer, f"go to {branch.goes_to}"
        else:
            yield branch.answer, "; or ".join(branch.do)
