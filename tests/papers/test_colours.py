from itertools import product

import pytest

from thruline.papers.colours import DARK, LIGHT, THEMED, variables

TEXTS = ("ink", "quiet", "fault", "risk", "advice", "proved")


def luminance(colour):
    """Relative luminance (W3C, Web Content Accessibility Guidelines 2.1)."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize(("palette", "name"), [*product((LIGHT, DARK), TEXTS)])
def test_every_text_can_be_read(palette, name):
    for ground in (palette.ground, palette.card):
        assert contrast(getattr(palette, name), ground) >= 4.5


@pytest.mark.parametrize(("palette", "place"), [*product((LIGHT, DARK), range(5))])
def test_every_line_can_be_read_and_seen(palette, place):
    assert contrast(palette.line(place), palette.ground) >= 4.5


def test_lines_begin_again_after_the_last():
    assert LIGHT.line(5) == LIGHT.line(0)


def test_a_page_sets_just_the_variables_that_drawings_use():
    used = [getattr(THEMED, name) for name in ("ground", "card", "rule", *TEXTS)] + [*THEMED.lines]
    assert {f"var({name})" for name in variables(LIGHT)} == set(used)
    assert variables(DARK).keys() == variables(LIGHT).keys()
