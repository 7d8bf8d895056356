"""Does the rig travel whole? The charts that it uses, to be laid beside it."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from thruline.app.frame import Json, answer
from thruline.app.load import Opened
from thruline.workshop.shelf import find_chart


class Laid(StrEnum):
    """What becomes of a chart that a rig uses."""

    COPIED = "copied"
    """It was not beside the rig, and is now."""
    THERE = "there"
    """It is beside the rig already."""
    DIFFERS = "differs"
    """It is beside the rig, and another one of its id is in the workshop or among the samples."""
    REPLACED = "replaced"
    """As `differs`, and the one from the workshop or the samples has taken its place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Embedded:
    """One chart that a rig uses: where it was found, and its text where it has to be written."""

    chart: str
    laid: Laid
    found: str
    content: bytes | None


def embedding(opened: Opened, *, replace: bool = False) -> Iterator[Embedded]:
    """What has to be written so that the rig needs no chart from elsewhere.

    The first shelf of the rig is the one beside it. Nothing is written here.
    """
    beside, *others = opened.shelves
    for chart_id in sorted(opened.charts):
        near, far = beside.find(chart_id), find_chart(others, chart_id)
        if near is None:
            if far is not None:
                yield Embedded(
                    chart=chart_id, laid=Laid.COPIED, found=far.file, content=far.content
                )
        elif far is None or far.content == near.content:
            yield Embedded(chart=chart_id, laid=Laid.THERE, found=near.file, content=None)
        elif replace:
            yield Embedded(chart=chart_id, laid=Laid.REPLACED, found=far.file, content=far.content)
        else:
            yield Embedded(chart=chart_id, laid=Laid.DIFFERS, found=far.file, content=None)


def embed_json(file: str, charts: tuple[Embedded, ...]) -> Json:
    """What was done, for other programs."""
    rows = [{"id": one.chart, "laid": one.laid.value, "found": one.found} for one in charts]
    return answer("chart embed", file=file, charts=rows)
