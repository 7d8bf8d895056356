"""`compare`: from one revision of a board to another, as a work order."""

import click

from thruline.app.compare import compare, compare_json, compare_sections
from thruline.app.frame import answer
from thruline.base.errors import EXIT_CLEAN, EXIT_FAULTS
from thruline.cli.given import A_FILE
from thruline.cli.paper_text import section_rows
from thruline.cli.show import give_json, say, say_all, styled, terminal_width
from thruline.papers.as_html import paper_html
from thruline.papers.paper import Paper
from thruline.wiring import open_file, write_page


@click.command("compare", epilog="Exit code 0 when the new one has no fault, 1 when it has.")
@click.argument("old", type=A_FILE)
@click.argument("new", type=A_FILE)
@click.option("--html", type=A_FILE, metavar="FILE", help="Write it as a page to print.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(old: str, new: str, *, html: str | None, as_json: bool) -> int:
    """What has to be done on the board when OLD becomes NEW, and nothing else.

    Units to put on, take off and set, cables to make, move and take away, presets to enter anew,
    what to test again. It is proved by carrying it out: done on the old board, the tasks give the
    new one, and none of them can be left out.
    """
    found = compare(open_file(old), open_file(new))
    sections = tuple(compare_sections(found))
    if html is not None:
        title = f"Work order: {found.new.opened.rig.name}"
        write_page(html, paper_html(Paper(title=title, about=(found.says,), sections=sections)))
    if as_json:
        give_json(answer("compare", **compare_json(found), written=html))
    else:
        say(styled(found.says, "strong"))
        for section in sections:
            say()
            say_all(section_rows(section, width=terminal_width()))
        if html is not None:
            say(f"written to {html}")
    return EXIT_CLEAN if found.new.proof.is_clean else EXIT_FAULTS
