"""A rig begun on a page: nothing but the foot controller, or the first board with that one."""

import re
from collections.abc import Sequence

from thruline.app.frame import Json
from thruline.app.load import open_chart, open_rig
from thruline.app.new_rig import ENDING, first_board
from thruline.base.address import at
from thruline.base.edit import add_to, set_to
from thruline.base.errors import CannotUse
from thruline.document.change import apply
from thruline.document.problems import BadDocument
from thruline.workshop.face import Shelf
from thruline.workshop.shelf import find_chart, known_ids, sheet_called

_BARE = 'format = 1\n\n[rig]\nname = "?"\ncontroller = "feet"\n'
_OTHER = re.compile(r"[^a-z0-9]+")
_LONGEST_STEM = 60


def begun(
    name: str, controller: str, *, shelves: Sequence[Shelf], sample: str | None = None
) -> str:
    """The text of a new rig with this foot controller; on the `sample` board, if one is given.

    Raises CannotUse when the rig cannot have that name, or the chart is of no controller.
    """
    name = " ".join(name.split())
    if sample is not None:
        return first_board(sample, name, controller=controller, shelves=shelves)
    chart = open_chart(sheet_called(shelves, controller))
    if chart.abilities is None:
        raise CannotUse(f"{chart.full_name} ({chart.id}) is a {chart.kind} and recalls no presets")
    unit = add_to(at("unit"), {"id": "feet", "chart": controller})
    text = apply(_BARE, (set_to(at("rig").child("name"), name), unit))
    try:
        open_rig(text, file="the new rig", shelves=shelves)
    except BadDocument as bad:
        raise CannotUse(f'"{name}" cannot be the name of a rig: {bad.problems[0].says}') from None
    return text


def file_for(name: str) -> str:
    """What the document of a rig of this name is called: "Pit board" is `pit-board.rig.toml`."""
    stem = _OTHER.sub("-", name.lower())[:_LONGEST_STEM].strip("-")
    return f"{stem or 'rig'}{ENDING}"


def controllers(shelves: Sequence[Shelf]) -> list[Json]:
    """Every foot controller there is a chart of: its id, and its maker and model."""
    found = []
    for chart_id in known_ids(shelves):
        sheet = find_chart(shelves, chart_id)
        try:
            chart = open_chart(sheet) if sheet is not None else None
        except CannotUse:
            continue  # a chart that cannot be used is told on the Charts page
        if chart is not None and chart.abilities is not None:
            found.append({"id": chart_id, "name": chart.full_name})
    return found
