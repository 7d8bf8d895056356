"""Papers as Markdown, read back by another reader of it."""

import re
from html import unescape

from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from thruline.papers.as_markdown import paper_markdown
from thruline.papers.paper import Paper, Section, Table

WORDS = st.text("ab1 2.-+*_#|`[]()<>&!\\~$=:é", min_size=1, max_size=12).filter(
    lambda one: re.search(r"\w", one)
)


def _read(text):
    """The words of what a reader of Markdown shows, block by block."""
    shown = MarkdownIt("commonmark").enable(["table", "strikethrough"]).render(text)
    found = re.findall(r"<(h1|h2|p|th|td)(?:\s[^>]*)?>(.*?)</\1>", shown, re.DOTALL)
    assert not re.search(r"<(em|strong|code|a|img|li|hr|h3|s|pre)\b", shown)
    return [(name, " ".join(unescape(words).split())) for name, words in found]


@given(WORDS, WORDS, WORDS, st.lists(st.tuples(WORDS, WORDS), min_size=1, max_size=3))
def test_words_stay_words(title, about, note, rows):
    section = Section(title=title, table=Table(("one", "two"), tuple(rows)), notes=(note,))
    paper = Paper(title=title, about=(about,), sections=(section,))
    plain = [" ".join(one.split()) for one in (title, about, note)]
    cells = [("td", _cell(cell)) for row in rows for cell in row]
    assert _read(paper_markdown(paper)) == [
        ("h1", plain[0]), ("p", plain[1]), ("h2", plain[0]), ("th", "one"), ("th", "two"),
        *cells, ("p", plain[2]),
    ]  # fmt: skip


def _cell(text):
    return "☐" if text == "[ ]" else " ".join(text.split())


def test_a_box_can_be_ticked():
    section = Section(title="s", says=("1. is no list",), table=Table(("", "a"), (("[ ]", "x"),)))
    text = paper_markdown(Paper(title="t", sections=(section,)))
    assert text == "# t\n\n## s\n\n1\\. is no list\n\n|  | a |\n| --- | --- |\n| ☐ | x |\n"
