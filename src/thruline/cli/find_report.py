"""The record of a search for a colleague, written as what the name of its file says."""

from collections.abc import Callable, Mapping
from pathlib import Path
from types import MappingProxyType

from thruline.app.book import paper_book
from thruline.app.search_told import told_paper
from thruline.binding import today, write_book, write_words
from thruline.cli.paper_text import paper_text
from thruline.find.standing import Standing
from thruline.papers.as_html import paper_html
from thruline.papers.as_markdown import paper_markdown
from thruline.papers.book import part_of
from thruline.papers.paper import Paper
from thruline.wiring import write_page


def _print(file: str, paper: Paper) -> None:
    write_book(file, paper_book(part_of("search", paper), date=today()), paper="a4")


FORMS: Mapping[str, Callable[[str, Paper], None]] = MappingProxyType(
    {
        ".html": lambda file, paper: write_page(file, paper_html(paper)),
        ".pdf": _print,
        ".md": lambda file, paper: write_words(file, paper_markdown(paper)),
        ".txt": lambda file, paper: write_words(file, paper_text(paper)),
    }
)
"""How a record is written, by the ending of its name."""


def write_report(file: str, standing: Standing) -> None:
    """Write the record of a search into a file that `check_report` takes.

    Raises CannotUse or WorldFailed when it cannot be written.
    """
    FORMS[Path(file).suffix.lower()](file, told_paper(standing))
