"""Rigs and charts told apart: whoever gives one for the other is told so, and what to do."""

from thruline.app.frame import typed_in
from thruline.base.errors import CannotUse
from thruline.base.spot import Spot
from thruline.document.chart_shape import ChartShape
from thruline.document.parse import Parsed, parse
from thruline.document.problems import BadDocument, Problem
from thruline.document.read import read
from thruline.document.rig_shape import RigShape


def parse_rig(
    content: str | bytes, *, file: str, before: Parsed[RigShape] | None = None
) -> Parsed[RigShape]:
    """Read a rig document; what stood in `before` as well is not read again.

    Raises BadDocument with all that is wrong, or CannotUse when it is a chart.
    """
    try:
        return parse(content, RigShape, file=file, before=before)
    except BadDocument:
        _refuse(content, file, wants="rig", is_one="chart", do=("chart", "check"))
        _refuse_empty(content, file, instead="`thruline new NAME.rig.toml` writes one")
        raise


def parse_chart(content: str | bytes, *, file: str) -> Parsed[ChartShape]:
    """Read a chart document.

    Raises BadDocument with all that is wrong, or CannotUse when it is a rig.
    """
    try:
        return parse(content, ChartShape, file=file)
    except BadDocument:
        _refuse(content, file, wants="chart", is_one="rig", do=("prove",))
        _refuse_empty(content, file, instead="`thruline chart copy CHART` makes one")
        raise


def _refuse_empty(content: str | bytes, file: str, *, instead: str) -> None:
    """Raise BadDocument when a text holds nothing, or comments only: examples help nobody then."""
    try:
        _, data = read(content, file=file)
    except BadDocument:
        return
    if not data:
        says = f"this document is empty; {instead} to start from"
        raise BadDocument([Problem(spot=Spot(file, 1, 1), says=says)])


def _refuse(
    content: str | bytes, file: str, *, wants: str, is_one: str, do: tuple[str, ...]
) -> None:
    """Raise CannotUse when a text that is no `wants` has the head of the other kind."""
    try:
        _, data = read(content, file=file)
    except BadDocument:
        return  # it is not even TOML, and has been told so
    if is_one in data and wants not in data:
        look = typed_in(*do, file)
        raise CannotUse(f"{file} is a {is_one}, not a {wants}; `{look}` looks at it")
