"""`book`: all papers of a rig as one PDF, with the rig itself inside."""

import click

from thruline.app.book import book_of
from thruline.app.book_parts import PARTS
from thruline.app.frame import answer
from thruline.app.mend import state_of
from thruline.base.errors import EXIT_CLEAN, EXIT_FAULTS
from thruline.binding import book_beside, check_book, today, write_book
from thruline.cli.given import A_FILE, OneOf
from thruline.cli.show import give_json, progress, say
from thruline.papers.book_data import PAPERS
from thruline.papers.proof_words import counts_in_words
from thruline.wiring import open_file


@click.command("book", epilog="Exit code 0 when no fault stands, 1 when one does: it is printed.")
@click.argument("rig", type=A_FILE)
@click.option("--to", type=A_FILE, metavar="FILE", help="Where to; beside the rig if left.")
@click.option(
    "--paper", type=OneOf("size of paper", PAPERS), default="a4", help="The size of paper."
)
@click.option(
    "--part", "parts", type=OneOf("part", PARTS), multiple=True,
    help="Only this part; may be given several times.",
)  # fmt: skip
@click.option("--date", metavar="WORDS", help="The date to print, instead of today's.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(
    rig: str, *, to: str | None, paper: str, parts: tuple[str, ...], date: str | None, as_json: bool
) -> int:
    """Everything that a stranger needs to repair the board, as one PDF.

    Its document and charts are inside: every command that reads a rig reads the book as well, and
    `open` puts the rig on the disk again, where it can be changed. The same rig and date give the
    same file, byte by byte.
    """
    file = to if to is not None else book_beside(rig)
    check_book(file)
    count = len(parts or PARTS)
    with progress("proving", count + 1) as done:
        state = state_of(open_file(rig))
        book = book_of(
            state,
            date=today() if date is None else date,
            parts=parts,
            step=lambda made, part: done(made, f"making {part}"),
        )
        done(count, "typesetting")
        pages = write_book(file, book, paper=paper)
    names = [part.name for part in book.parts]
    if as_json:
        told = answer("book", file=file, paper=paper, pages=pages, parts=names)
        give_json({**told, "verdict": str(state.proof.verdict)})
    else:
        say(f"written to {file}: {pages} pages")
        say(f"the proof in it says: {counts_in_words(state.proof)}")
    return EXIT_CLEAN if state.proof.is_clean else EXIT_FAULTS
