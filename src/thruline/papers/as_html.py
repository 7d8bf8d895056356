"""A paper as one page of HTML that needs nothing else and prints in black on white."""

from thruline.papers.page import filled
from thruline.papers.paper import Paper


def paper_html(paper: Paper) -> str:
    """The page; `[ ]` in a table becomes a box to tick."""
    return filled("paper.html.j2", paper=paper)
