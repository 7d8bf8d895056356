from hypothesis import given
from hypothesis import strategies as st

from thruline.cli.canvas import PLAIN, Canvas, fitted, in_ascii


def plain(text, _style):
    return text


def marked(text, style):
    return f"<{style}>{text}</>"


def test_what_matters_more_is_not_drawn_over():
    canvas = Canvas(1, 5)
    canvas.put(0, 1, "x", rank=3)
    canvas.put(0, 0, "-----", rank=2)
    assert canvas.row(0, plain) == "-x---"


def test_of_one_rank_the_later_counts():
    canvas = Canvas(1, 3)
    canvas.put(0, 0, "abc")
    canvas.put(0, 1, "X")
    assert canvas.row(0, plain) == "aXc"


def test_letters_of_one_style_go_together():
    canvas = Canvas(1, 9)
    canvas.put(0, 1, "ab", style="good")
    canvas.put(0, 3, "c", style="fault")
    assert canvas.row(0, marked) == " <good>ab</><fault>c</>"


def test_rows_have_no_blanks_at_the_end():
    canvas = Canvas(2, 9)
    canvas.put(1, 0, "a   ")
    assert [*canvas.rows(plain)] == ["", "a"]


@given(
    st.lists(
        st.tuples(st.integers(-3, 6), st.integers(-9, 20), st.text("ab│", max_size=9)), max_size=9
    )
)
def test_nothing_is_drawn_outside(strokes):
    canvas = Canvas(3, 10)
    for row, column, text in strokes:
        canvas.put(row, column, text)
    assert all(len(row) <= 10 for row in canvas.rows(plain))


def test_room_is_found():
    canvas = Canvas(1, 6)
    canvas.put(0, 3, "x", rank=3)
    assert canvas.is_free(0, 0, count=3, rank=3)
    assert not canvas.is_free(0, 1, count=3, rank=3)
    assert canvas.is_free(0, 1, count=3, rank=4)
    assert not canvas.is_free(0, 4, count=3, rank=3)


@given(st.text(max_size=30), st.integers(0, 30))
def test_what_is_fitted_fits(text, width):
    assert len(fitted(text, width)) <= max(width, 1)


def test_ascii_stands_in_for_every_box_letter():
    (row,) = in_ascii(["".join(PLAIN)])
    assert row.isascii()
    assert len(row) == len(PLAIN)
