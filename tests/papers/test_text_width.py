import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.papers.text_width import ELLIPSIS, fitted, text_width, wrapped

TEXTS = st.text(max_size=60)
SIZES = st.floats(5, 40)


def test_broad_letters_are_wider_than_narrow_ones():
    assert text_width("WWW", 10) > text_width("nnn", 10) > text_width("iii", 10)
    assert text_width("\uff37", 10) > text_width("W", 10)


def test_bold_is_wider():
    assert text_width("Pippin", 12, bold=True) > text_width("Pippin", 12)


@pytest.mark.parametrize(
    ("text", "measured"),
    [
        ("Ashmead Amplifier Switch", 11.62),
        ("loading, deaf to control changes", 14.18),
        ("all right at 25.7 ms", 8.18),
    ],
)
def test_widths_are_on_the_wide_side_but_not_far_off(text, measured):
    """Against the widths in a face with the measures of Helvetica, in times of the type size."""
    assert measured <= text_width(text, 1) <= measured * 1.2


@given(TEXTS, TEXTS, SIZES)
def test_widths_add_up(one, other, size):
    both = text_width(one, size) + text_width(other, size)
    assert text_width(one + other, size) == pytest.approx(both)


@given(TEXTS, st.floats(20, 400), SIZES)
def test_what_is_fitted_fits(text, width, size):
    shown = fitted(text, width, size=size)
    assert text_width(shown, size) <= max(width, text_width(ELLIPSIS, size))
    assert shown == text or shown.endswith(ELLIPSIS)
    assert text.startswith(shown.removesuffix(ELLIPSIS))


@given(st.lists(st.text("abc", min_size=1, max_size=9), max_size=12), st.floats(30, 300))
def test_wrapping_loses_no_word(words, width):
    rows = wrapped(" ".join(words), width, size=10)
    assert " ".join(rows).split() == words
    assert all(text_width(row, 10) <= width or " " not in row for row in rows)
