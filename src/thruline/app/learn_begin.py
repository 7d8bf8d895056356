"""The document that learning begins with: every unit that was heard of, with a chart for each."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, count

from thruline.app.learn_said import Remark, Said
from thruline.app.load import Opened
from thruline.base.address import at
from thruline.base.edit import Plain, add_to
from thruline.base.errors import CannotUse
from thruline.document.change import apply_to
from thruline.document.write import document_text
from thruline.learn.begun import begun_controller, begun_unit
from thruline.learn.channels import OnChannel
from thruline.learn.learned import Learned

CONTROLLER = "feet"
"""What the controller is called where nobody says otherwise."""
BEGUN_CONTROLLER = "learned-controller"
ABOUT = "Learned from what its controller sends. What could not be heard stands in comments."


@dataclass(frozen=True, slots=True)
class Begun:
    """A document with units only, the charts that had to be begun for it, and what is unknown."""

    text: str
    charts: Mapping[str, Mapping[str, Plain]]
    unknown: tuple[Remark, ...]


def begun_for(
    learned: Learned,
    said: Said,
    *,
    heard: Sequence[OnChannel],
    board: Opened | None,
    charts: Collection[str],
) -> Begun:
    """The units: those of `board`, those that a person named, and one for each other channel.

    `charts` are the ids of charts that are there already; what is begun here gets another.

    Raises CannotUse when two of them would have one id.
    """
    units, begun, unknown = _units(said, heard, board, charts=charts)
    if board is not None:
        edits = [add_to(at("unit"), unit) for unit in units]
        return Begun(apply_to(board.document, edits), begun, tuple(unknown))
    controller = said.controller or _free(BEGUN_CONTROLLER, charts)
    if said.controller is None:
        pedals = max(1, len(learned.sweeps))
        begun[controller] = begun_controller(controller, learned, pedals=pedals)
        says = "which controller this is; its chart was begun from what it sends"
        unknown.append(Remark(at("unit", CONTROLLER), says))
    text = document_text(
        {
            "format": 1,
            "rig": {"name": said.name, "controller": CONTROLLER, "about": ABOUT},
            "unit": [{"id": CONTROLLER, "chart": controller}, *units],
        }
    )
    return Begun(text, begun, tuple(unknown))


def _units(
    said: Said, heard: Sequence[OnChannel], board: Opened | None, *, charts: Collection[str]
) -> tuple[list[dict[str, Plain]], dict[str, Mapping[str, Plain]], list[Remark]]:
    """A unit for each channel that has none yet, charts begun for them, and what is unknown."""
    known = _known_channels(board)
    taken = set(board.rig.units) if board is not None else {CONTROLLER}
    units, unknown = list[dict[str, Plain]](), list[Remark]()
    begun: dict[str, Mapping[str, Plain]] = {}
    for one in heard:
        if one.channel in known:
            continue
        unit = said.units.get(one.channel)
        unit_id = unit.id if unit else f"unit-{one.channel}"
        if unit_id in taken:
            raise CannotUse(
                f'there is a unit "{unit_id}" already; give the one on channel {one.channel} '
                f"another id: --unit {one.channel}=NAME:CHART"
            )
        taken.add(unit_id)
        chart_id = unit.chart if unit else None
        if chart_id is None:
            chart_id = _free(f"learned-{unit_id}", charts)
            begun[chart_id] = begun_unit(chart_id, one)
        units.append({"id": unit_id, "chart": chart_id, "channel": one.channel})
        unknown += _of_unit(unit_id, one, is_begun=chart_id in begun)
    return units, begun, unknown


def _free(chart_id: str, taken: Collection[str]) -> str:
    """The id, or with the first number after it that makes it the id of no chart yet."""
    numbered = (f"{chart_id}-{number}" for number in count(2))
    return next(one for one in chain((chart_id,), numbered) if one not in taken)


def _known_channels(board: Opened | None) -> set[int]:
    if board is None:
        return set()
    units = board.rig.units.values()
    return {one.sent_on for one in units if one.sent_on is not None and one.chart.listens}


def _of_unit(unit_id: str, heard: OnChannel, *, is_begun: bool) -> Iterator[Remark]:
    where = at("unit", unit_id)
    if is_begun:
        yield Remark(where, f"which unit this is. What it is sent: {heard.says}")
    yield Remark(
        where,
        f"whether it is really set to channel {heard.channel}: that is only where it is addressed; "
        "look in its menu, and how everything else in there is set",
    )
