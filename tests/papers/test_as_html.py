"""Papers as pages."""

from thruline.papers.as_html import paper_html
from thruline.papers.paper import Paper, Section, Table

PAPER = Paper(
    title="A & B",
    about=("first <words>",),
    sections=(
        Section(title="One", says=("said",), table=Table(("", "x"), (("[ ]", "<i>"),))),
        Section(title="Two", notes=("small",)),
    ),
)


def test_the_page_has_everything_escaped_and_needs_nothing_else():
    page = paper_html(PAPER)
    assert "<h1>A &amp; B</h1>" in page
    assert "first &lt;words&gt;" in page
    assert "&lt;i&gt;" in page
    assert page.count('class="tick"') == 1
    assert "small" in page
    assert "http" not in page
    assert "<script" not in page
