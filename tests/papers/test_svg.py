from hypothesis import given
from hypothesis import strategies as st

from tests.papers.markup import read
from thruline.papers.svg import element, points, text_of


def test_names_of_attributes():
    assert element("line", x1=1, stroke_width=2.5, class_="a", fill=None) == (
        '<line x1="1" stroke-width="2.5" class="a"/>'
    )


def test_numbers_have_two_decimals_at_most():
    assert points([(1.0, 2.34567), (10, -0.001)]) == "1,2.35 10,-0"


def test_elements_hold_elements():
    assert element("g", element("circle", r=1), "text") == '<g><circle r="1"/>text</g>'


@given(st.text(), st.text())
def test_no_text_breaks_the_markup(inside, value):
    drawn = element("text", text_of(inside), title=text_of(value))
    root = read(drawn)
    assert (root.text or "").split() == "".join(
        letter if letter.isprintable() else " " for letter in inside
    ).split()
