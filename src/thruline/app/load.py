"""A rig document with its charts, read and resolved."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from thruline.app.kinds import parse_chart, parse_rig
from thruline.audit.digits import is_number
from thruline.base.address import at
from thruline.base.errors import CannotUse
from thruline.document.chart_shape import ChartShape
from thruline.document.parse import Parsed
from thruline.document.problems import BadDocument, Problem, excerpt
from thruline.document.rig_shape import RigShape
from thruline.rig.chart import Chart
from thruline.rig.chart_check import check_chart
from thruline.rig.nearest import nearest
from thruline.rig.preset import Preset
from thruline.rig.read_chart import read_chart
from thruline.rig.resolve import resolve
from thruline.rig.resolve_presets import Resolved
from thruline.rig.sharing import sharing
from thruline.rig.whole import Rig
from thruline.workshop.face import Sheet, Shelf
from thruline.workshop.shelf import find_chart, known_ids

MOST_NAMED = 4
"""So many presets are named when a name may mean any of several."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A rig as it was opened: the model, the document it came from, and its charts."""

    rig: Rig
    document: Parsed[RigShape]
    charts: Mapping[str, Chart]
    sheets: Mapping[str, Sheet]
    shelves: tuple[Shelf, ...]


def open_rig(content: str | bytes, *, file: str, shelves: Sequence[Shelf]) -> Opened:
    """Read a rig document and every chart that it names.

    Raises BadDocument (a CannotUse) when the rig or a chart cannot be used.
    """
    document = parse_rig(content, file=file)
    charts, sheets = _charts(document, shelves, known={})
    return Opened(
        rig=resolve(document.shape, charts),
        document=document,
        charts=charts,
        sheets=sheets,
        shelves=tuple(shelves),
    )


def open_again(opened: Opened, content: str | bytes) -> Opened:
    """The same rig after its text has changed; charts already read are kept."""
    document = parse_rig(content, file=opened.document.file, before=opened.document)
    charts, sheets = _charts(document, opened.shelves, known=opened.charts)
    before = Resolved(opened.document.shape, opened.rig)
    return replace(
        opened,
        rig=sharing(resolve(document.shape, charts, before=before), opened.rig),
        document=document,
        charts=charts,
        sheets={**opened.sheets, **sheets},
    )


def _charts(
    document: Parsed[RigShape], shelves: Sequence[Shelf], *, known: Mapping[str, Chart]
) -> tuple[Mapping[str, Chart], Mapping[str, Sheet]]:
    """The charts that the units name, and where the new ones were found."""
    charts: dict[str, Chart] = {}
    sheets: dict[str, Sheet] = {}
    missing: list[Problem] = []
    for unit in document.shape.unit:
        if unit.chart in charts:
            continue
        if unit.chart in known:
            charts[unit.chart] = known[unit.chart]
            continue
        sheet = find_chart(shelves, unit.chart)
        if sheet is None:
            missing.append(_missing(document, unit.id, unit.chart, shelves=shelves))
        else:
            charts[unit.chart] = open_chart(sheet, called=unit.chart)
            sheets[unit.chart] = sheet
    if missing:
        raise BadDocument(missing)
    return charts, sheets


def _missing(
    document: Parsed[RigShape], unit_id: str, chart_id: str, *, shelves: Sequence[Shelf]
) -> Problem:
    """A chart that is on no shelf."""
    ids = known_ids(shelves)
    meant = nearest(chart_id, ids)
    looked = ", ".join(shelf.says for shelf in shelves)
    hint = f'; did you mean "{meant}"?' if meant else "; `thruline chart list` shows what there is"
    return Problem(
        spot=document.spot_of(at("unit", unit_id).child("chart")),
        says=f'there is no chart "{chart_id}" (looked in {looked}){hint}',
        nearest=meant,
    )


def open_chart(sheet: Sheet, *, called: str | None = None) -> Chart:
    """The chart that a sheet holds; `called` is the id under which it was looked up.

    Raises BadDocument when it cannot be used, or has another id.
    """
    document = parse_chart(sheet.content, file=sheet.file)
    problems = chart_problems(document)
    if called not in (None, document.shape.chart.id):
        problems.append(_misnamed(document, called or ""))
    if problems:
        raise BadDocument(problems)
    return read_chart(document.shape)


def _misnamed(document: Parsed[ChartShape], called: str) -> Problem:
    """A chart file of one name that holds the chart of another."""
    own = document.shape.chart.id
    return Problem(
        spot=document.spot_of(at("chart").child("id")),
        says=f'this chart calls itself "{own}", and its file is called after "{called}"; '
        "a chart is looked up by the name of its file, so both must be the same",
        found=f'"{own}"',
        example=f'id = "{called}"',
    )


def chart_problems(document: Parsed[ChartShape]) -> list[Problem]:
    """What does not fit together inside a chart, each with its spot."""
    found = [(document.spot_of(one.address), str(one)) for one in check_chart(document.shape)]
    return [
        Problem(spot=spot, says=says, excerpt=excerpt(document.places, spot))
        for spot, says in found
    ]


def pick_preset(rig: Rig, wanted: int | str) -> Preset:
    """The preset of this number or name; of a name, a beginning that only one has will do.

    Raises CannotUse, naming the nearest, when the rig has none.
    """
    if isinstance(wanted, str) and not is_number(wanted):
        return _preset_called(rig, wanted)
    number = int(wanted)
    preset = rig.preset(number)
    if preset is not None:
        return preset
    if not rig.presets:
        raise CannotUse(f"there is no preset {number}: this rig has no presets yet")
    near = sorted(rig.presets, key=lambda other: abs(other.number - number))[:3]
    hint = ", ".join(one.title for one in sorted(near, key=lambda other: other.number))
    raise CannotUse(f"there is no preset {number} in this rig; the nearest are {hint}")


def _preset_called(rig: Rig, name: str) -> Preset:
    low = name.casefold()
    called = [one for one in rig.presets if one.name.casefold() == low]
    found = called or [one for one in rig.presets if one.name.casefold().startswith(low)]
    if len(found) == 1:
        return found[0]
    if found:
        several = ", ".join(one.title for one in found[:MOST_NAMED])
        raise CannotUse(f'"{name}" may be {several}: give more of the name, or the number')
    near = nearest(name, [one.name for one in rig.presets])
    hint = f'; did you mean "{near}"?' if near else ""
    raise CannotUse(f'no preset of this rig is called "{name}"{hint}')
