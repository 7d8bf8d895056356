"""A paper as comma-separated values (RFC 4180), for spreadsheets."""

import csv
from collections.abc import Iterator

from thruline.papers.paper import Paper


class _Rows:
    """Takes what the writer of `csv` writes."""

    def __init__(self) -> None:
        self.text = ""

    def write(self, row: str) -> int:
        """One row more."""
        self.text += row
        return len(row)


def paper_csv(paper: Paper) -> str:
    """All tables, the title of its section before each row.

    The head is given again where it changes. Sentences and small print are left out.
    """
    made = _Rows()
    csv.writer(made).writerows(_rows(paper))
    return made.text


def _rows(paper: Paper) -> Iterator[tuple[str, ...]]:
    head: tuple[str, ...] = ()
    for section in paper.sections:
        if section.table is None:
            continue
        if section.table.head != head:
            head = section.table.head
            yield ("section", *head)
        for row in section.table.rows:
            yield (section.title, *row)
