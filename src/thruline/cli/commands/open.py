"""`open`: the rig inside a book, on the disk again."""

import click

from thruline.app.frame import answer
from thruline.base.errors import EXIT_CLEAN
from thruline.binding import open_book, put_down
from thruline.cli.given import A_FILE
from thruline.cli.show import give_json, say
from thruline.wiring import open_file


@click.command("open", epilog="Exit code 2 when there is no rig inside, or files are in the way.")
@click.argument("book", type=A_FILE)
@click.option("--to", type=A_FILE, metavar="FOLDER", help="Where to; here if left out.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(book: str, *, to: str | None, as_json: bool) -> int:
    """Put the rig inside a book on the disk again: its document, and its charts beside it.

    Nothing that is there is written over.
    """
    open_file(book)  # a rig that cannot be used is told of before anything is written
    written = put_down(open_book(book), folder="." if to is None else to)
    if as_json:
        give_json(answer("open", book=book, written=list(written)))
    else:
        for file in written:
            say(f"written to {file}")
    return EXIT_CLEAN
