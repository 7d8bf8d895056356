"""A paper as rows of text for the terminal."""

import textwrap
from collections.abc import Iterator, Sequence
from itertools import zip_longest

import click

from thruline.cli.show import styled
from thruline.papers.paper import Paper, Section, Table

WIDTH = 100
GAP = "  "
_NARROWEST = 6
_KEPT = "\xa0"  # a blank at which no row is broken


def paper_rows(paper: Paper) -> Iterator[str]:
    """The whole paper: its title, then one section after the other."""
    yield styled(paper.title, "strong")
    for about in paper.about:
        yield from textwrap.wrap(about, WIDTH)
    for section in paper.sections:
        yield ""
        yield from section_rows(section)


def paper_text(paper: Paper) -> str:
    """The whole paper as on a terminal, without its colours."""
    return "".join(f"{click.unstyle(row)}\n" for row in paper_rows(paper))


def section_rows(section: Section, *, width: int = WIDTH) -> Iterator[str]:
    """One section: its title, sentences, table and small print."""
    yield styled(section.title, "strong")
    for sentence in section.says:
        yield from textwrap.wrap(sentence, width)
    if section.table is not None:
        yield from table_rows(section.table, width)
    for note in section.notes:
        yield from (styled(row, "quiet") for row in textwrap.wrap(note, width))


def table_rows(table: Table, width: int = WIDTH) -> Iterator[str]:
    """A table with a rule under its head; cells that are too wide go over several rows."""
    widths = column_widths([table.head, *table.rows], width)
    yield from _cells(table.head, widths)
    yield GAP.join("-" * wide for wide in widths)
    for row in table.rows:
        yield from _cells(row, widths)


def column_widths(rows: Sequence[Sequence[str]], width: int) -> list[int]:
    """Columns as wide as their cells want, the widest cut down until all fit into `width`.

    No column gets narrower than a few letters, even if `width` is too small for that.
    """
    wanted = [max(len(cell) for cell in column) for column in zip(*rows, strict=True)]
    room = width - len(GAP) * (len(wanted) - 1)
    most = max(wanted, default=0)
    while most > _NARROWEST and sum(min(most, wide) for wide in wanted) > room:
        most -= 1
    return [min(most, wide) for wide in wanted]


def folded(cell: str, wide: int) -> list[str]:
    """A cell over as many rows as it needs; what stands between two commas stays together."""
    if len(cell) <= wide:
        return [cell]
    parts = cell.split(", ")
    if max(map(len, parts)) < wide:
        cell = ", ".join(part.replace(" ", _KEPT) for part in parts)
    rows = textwrap.wrap(cell, wide, break_on_hyphens=False)
    return [row.replace(_KEPT, " ") for row in rows]


def _cells(cells: Sequence[str], widths: Sequence[int]) -> Iterator[str]:
    parts = [folded(cell, wide) for cell, wide in zip(cells, widths, strict=True)]
    for row in zip_longest(*parts, fillvalue=""):
        padded = (part.ljust(wide) for part, wide in zip(row, widths, strict=True))
        yield GAP.join(padded).rstrip()
