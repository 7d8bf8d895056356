"""What each chart on the shelves is of, to be chosen from: its id, maker, model and kind."""

from collections.abc import Mapping, Sequence
from functools import lru_cache

from thruline.app.frame import Json
from thruline.document.problems import shown_text
from thruline.document.read import plain_data
from thruline.workshop.face import Shelf
from thruline.workshop.shelf import find_chart, known_ids

MOST_KEPT = 1024


def chart_heads(shelves: Sequence[Shelf]) -> list[Json]:
    """Every chart by its id, with `says`, what it is of: "Bramley Delay, delay".

    That is empty where the chart does not say it. Raises WorldFailed when a file is not read.
    """
    found = []
    for chart_id in known_ids(shelves):
        sheet = find_chart(shelves, chart_id)
        found.append({"id": chart_id, "says": _says(sheet.content) if sheet else ""})
    return found


@lru_cache(maxsize=MOST_KEPT)
def _says(content: bytes) -> str:
    """What a chart is of, from its first facts; whether it can be used is told elsewhere."""
    try:
        head = plain_data(content.decode()).get("chart")
    except (ValueError, RecursionError):
        return ""
    if not isinstance(head, Mapping):
        return ""
    maker, model, kind = (str(head.get(key, "")) for key in ("maker", "model", "kind"))
    name = " ".join(one for one in (maker, model) if one)
    return shown_text(", ".join(one for one in (name, kind) if one))
