"""What a printed paper is made of."""

from thruline.papers.book import part_of
from thruline.papers.paper import Paper, Section


def test_a_paper_becomes_a_part():
    paper = Paper(title="T", about=("a",), sections=(Section(title="s"),))
    part = part_of("t", paper)
    assert (part.name, part.title, part.says, part.blocks) == ("t", "T", ("a",), paper.sections)
