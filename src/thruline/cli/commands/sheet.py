"""`sheet`: single papers, as text, as a page, or for a spreadsheet."""

import click

from thruline.app.chart import paper_json
from thruline.app.frame import answer
from thruline.app.sheet import SHEETS
from thruline.base.errors import EXIT_CLEAN
from thruline.cli.given import A_FILE
from thruline.cli.paper_text import paper_rows
from thruline.cli.show import give_json, only_ours, say, say_all
from thruline.papers.as_csv import paper_csv
from thruline.papers.as_html import paper_html
from thruline.wiring import open_file, write_table, write_text


@click.command("sheet", epilog="Exit code 0.")
@click.argument("rig", type=A_FILE)
@click.argument("which", type=click.Choice(list(SHEETS)))
@click.option("--html", type=click.Path(), metavar="FILE", help="Write it as a page to print.")
@click.option("--csv", "table", type=click.Path(), metavar="FILE", help="Write its tables as CSV.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(rig: str, *, which: str, html: str | None, table: str | None, as_json: bool) -> int:
    """Settings, programming, cables, labels or power, as a paper.

    `settings`: what is set on each unit, in the order of the first power-up, to tick off.
    `programming`: what is typed into the controller, in its own numbers. `cables`: what to make.
    `labels`: for both ends of each cable. `power`: which outlet for which unit.
    """
    opened = open_file(rig)
    with only_ours():
        paper = SHEETS[which](opened)
    written = [file for file in (html, table) if file is not None]
    if html is not None:
        write_text(html, paper_html(paper))
    if table is not None:
        write_table(table, paper_csv(paper))
    if as_json:
        give_json(answer("sheet", sheet=which, **paper_json(paper), written=written))
    elif written:
        for file in written:
            say(f"written to {file}")
    else:
        say_all(paper_rows(paper))
    return EXIT_CLEAN
