"""Rigs opened from text, with the packaged charts and charts given as text."""

import tomllib

from thruline.app.load import Opened, open_rig
from thruline.outside.shelves import sample_shelf
from thruline.workshop.face import Sheet

HEAD = 'format = 1\n[rig]\nname = "Example"\ncontroller = "feet"\n'


class TextShelf:
    """Charts that a test or an example brings along."""

    says = "the example's own charts"

    def __init__(self, texts: tuple[str, ...]) -> None:
        self._texts = {tomllib.loads(text)["chart"]["id"]: text for text in texts}

    def find(self, chart_id: str) -> Sheet | None:
        text = self._texts.get(chart_id)
        return Sheet(f"{chart_id}.chart.toml", text.encode()) if text is not None else None

    def ids(self) -> tuple[str, ...]:
        return tuple(sorted(self._texts))


def with_head(text: str) -> str:
    """The text of a rig; the head is added when it is left out."""
    return text if "[rig]" in text else HEAD + text


def open_text(text: str, *charts: str) -> Opened:
    """A rig opened from its text."""
    return open_rig(
        with_head(text), file="example.rig.toml", shelves=(TextShelf(charts), sample_shelf())
    )
