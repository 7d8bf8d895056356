"""A paper as one page of HTML that needs nothing else and prints in black on white."""

from thruline.papers.colours import DARK, LIGHT, variables
from thruline.papers.paper import Paper


def paper_html(paper: Paper) -> str:
    """The page; `[ ]` in a table becomes a box to tick."""
    import jinja2  # noqa: PLC0415 - heavy, and only for pages

    pages = jinja2.Environment(
        loader=jinja2.PackageLoader("thruline", "papers"),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=jinja2.StrictUndefined,
    )
    return pages.get_template("paper.html.j2").render(
        paper=paper, light=variables(LIGHT), dark=variables(DARK)
    )
