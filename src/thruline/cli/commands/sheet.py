"""`sheet`: single papers, as text, as a page, to print, for notes, or for a spreadsheet."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

import click

from thruline.app.chart import paper_json
from thruline.app.frame import answer
from thruline.app.sheet import SHEETS, sheet_book, sheet_material, sheet_of
from thruline.app.stage_view import stage_json
from thruline.base.errors import EXIT_CLEAN, CannotUse
from thruline.binding import today, write_book, write_words
from thruline.cli.given import A_FILE, OneOf, refuse_idle
from thruline.cli.paper_text import paper_rows, paper_text
from thruline.cli.show import give_json, only_ours, say, say_all
from thruline.papers.as_csv import paper_csv
from thruline.papers.as_html import paper_html
from thruline.papers.as_markdown import paper_markdown
from thruline.papers.book_data import PAPERS
from thruline.papers.paper import Paper
from thruline.wiring import open_file, write_page, write_table
from thruline.workbench.stage_file import stage_file

WRITERS: Mapping[str, Callable[[str, Paper], None]] = MappingProxyType(
    {
        "html": lambda file, paper: write_page(file, paper_html(paper)),
        "csv": lambda file, paper: write_table(file, paper_csv(paper)),
        "markdown": lambda file, paper: write_words(file, paper_markdown(paper)),
        "text": lambda file, paper: write_words(file, paper_text(paper)),
    }
)
"""How a paper is written, by the option that names the file. A PDF is printed from more."""
STAGE = "stage"
"""The setlist as the Stage page shows it, in one file: a page and no paper."""


@click.command("sheet", epilog="Exit code 0.")
@click.argument("rig", type=A_FILE)
@click.argument("which", type=OneOf("sheet", [*SHEETS, STAGE]))
@click.option("--pdf", type=A_FILE, metavar="FILE", help="Write it as a PDF to print.")
@click.option("--html", type=A_FILE, metavar="FILE", help="Write it as a page to print.")
@click.option("--markdown", type=A_FILE, metavar="FILE", help="Write it as Markdown.")
@click.option("--text", type=A_FILE, metavar="FILE", help="Write it as plain text.")
@click.option("--csv", type=A_FILE, metavar="FILE", help="Write its tables as CSV.")
@click.option("--paper", type=OneOf("size of paper", PAPERS), default="a4", help="For the PDF.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(rig: str, *, which: str, paper: str, as_json: bool, **files: str | None) -> int:
    """One paper: what a technician needs at one moment of the work.

    `bring-up`: the first power-up, step by step. `faults`: the first checks when it fails.
    `settings`: what is set on each unit, to tick off. `programming`: what is typed into the
    controller, in its own numbers. `cables`: what to make. `labels`: for both ends of each cable.
    `power`: which outlet for which unit. `setlist`: the songs of the night. `proof`: what was
    proved. The book has all of them. `stage`: the setlist as one page (`--html`) for a telephone:
    dark, in large type, with a step on and back, and no network needed.
    """
    named = {kind: file for kind, file in files.items() if file is not None}
    if which == STAGE and list(named) != ["html"]:
        raise CannotUse("the stage sheet is a page for a telephone: name its file with --html FILE")
    if "pdf" not in named:
        refuse_idle("paper", because="is for a print; add --pdf FILE.pdf")
    date = today()
    material = sheet_material(open_file(rig), date=date)
    with only_ours():
        sheet = sheet_of(material, "setlist" if which == STAGE else which)
    for kind, file in named.items():
        if kind == "pdf":
            write_book(file, sheet_book(material, sheet, which=which, date=date), paper=paper)
        elif which == STAGE:
            write_page(file, stage_file(stage_json(material.opened), made=date))
        else:
            WRITERS[kind](file, sheet)
    written = list(named.values())
    if as_json:
        give_json(answer("sheet", sheet=which, **paper_json(sheet), written=written))
    elif written:
        for file in written:
            say(f"written to {file}")
    else:
        say_all(paper_rows(sheet))
    return EXIT_CLEAN
