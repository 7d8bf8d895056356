"""A paper as Markdown (CommonMark, with tables as GitHub has them), for notes and wikis."""

import re
from collections.abc import Iterable, Iterator

from thruline.papers.paper import Paper, Section, Table

BOX, TICK = "[ ]", "☐"
_MARKS = re.compile(r"([\\`*_\[\]<>#|~&$!])")
_LISTED = re.compile(r"^([-+=]|\d+(?=[.)]))")


def paper_markdown(paper: Paper) -> str:
    """The text; `[ ]` in a table becomes a box, and small print a quotation."""
    return "\n\n".join(_blocks(paper)) + "\n"


def _blocks(paper: Paper) -> Iterator[str]:
    yield f"# {_plain(paper.title)}"
    yield from map(_sentence, paper.about)
    for section in paper.sections:
        yield from _section(section)


def _section(section: Section) -> Iterator[str]:
    yield f"## {_plain(section.title)}"
    yield from map(_sentence, section.says)
    if section.table is not None:
        yield _table(section.table)
    yield from (f"> {_sentence(note)}" for note in section.notes)


def _table(table: Table) -> str:
    rows = [_row(map(_cell, table.head)), _row("---" for _ in table.head)]
    rows += [_row(map(_cell, row)) for row in table.rows]
    return "\n".join(rows)


def _row(cells: Iterable[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _cell(text: str) -> str:
    return TICK if text == BOX else _plain(text)


def _sentence(text: str) -> str:
    """A paragraph: at its start nothing may be taken for a list or a rule."""
    plain = _plain(text)
    begin = _LISTED.match(plain)
    if begin is None:
        return plain
    if begin[0].isdigit():
        return f"{begin[0]}\\{plain[begin.end() :]}"
    return f"\\{plain}"


def _plain(text: str) -> str:
    """Words as words: nothing of them is a mark, and they stay in one row."""
    return _MARKS.sub(r"\\\1", " ".join(text.split()))
