"""Whole numbers as people write them, in a file or behind an option."""

MOST_DIGITS = 9
"""No number that a person counts presets or channels with is longer."""


def is_number(text: str) -> bool:
    """Whether a text is digits only, and few enough that `int` takes it and means something."""
    return text.isdecimal() and len(text) <= MOST_DIGITS
