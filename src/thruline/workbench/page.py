"""What every page is."""

from typing import NamedTuple


class Page(NamedTuple):
    """A page: its name in addresses, its heading, and the question that it answers."""

    name: str
    title: str
    question: str
