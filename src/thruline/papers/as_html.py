"""A paper as one page of HTML that needs nothing else and prints in black on white."""

from collections.abc import Sequence

from thruline.papers.page import filled
from thruline.papers.paper import Figure, Paper


def paper_html(paper: Paper, figures: Sequence[Figure] = ()) -> str:
    """The page, with drawings at its end; `[ ]` in a table becomes a box to tick."""
    return filled("paper.html.j2", paper=paper, figures=figures)
