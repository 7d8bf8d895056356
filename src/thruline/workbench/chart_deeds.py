"""What a page can do to the charts beside a rig."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from thruline.app.chart_desk import (
    chart_copied,
    chart_edited,
    chart_made,
    chart_moved,
    chart_named,
    chart_restored,
    chart_taken_away,
)
from thruline.app.desk import Desk, Keeping
from thruline.app.fact_view import added_edit, moved_edit, typed_edit
from thruline.base.address import read_address
from thruline.base.edit import Edit, remove
from thruline.document.chart_shape import ChartShape
from thruline.workbench.asked import Asked, wanted
from thruline.workbench.room import Change


def _copy_chart(asked: Asked) -> Change:
    """Copy a chart beside the rig."""
    source, new = wanted(asked, "chart", str), wanted(asked, "new", str)
    return lambda desk, keeping: chart_copied(desk, keeping, source, new=new)


def _make_chart(asked: Asked) -> Change:
    """Make a chart of maker, model and kind."""
    new = wanted(asked, "new", str)
    head = {key: wanted(asked, key, str).strip() for key in ("maker", "model", "kind")}
    return lambda desk, keeping: chart_made(desk, keeping, new, head=head)


def _chart_fact(asked: Asked) -> Change:
    """Fill in one fact of a chart with what was typed."""
    address, text = wanted(asked, "address", str), wanted(asked, "text", str)
    return _made(asked, lambda _data: typed_edit(ChartShape, address, text))


def _add_chart_fact(asked: Asked) -> Change:
    """Add a clause to a chart, or one more entry to a list in it."""
    address, is_list = wanted(asked, "address", str), wanted(asked, "list", bool)
    texts = {str(key): str(text) for key, text in wanted(asked, "texts", dict).items()}
    return _made(asked, lambda _data: added_edit(ChartShape, address, texts, is_list=is_list))


def _drop_chart_fact(asked: Asked) -> Change:
    """Take a clause or an entry out of a chart."""
    address = read_address(wanted(asked, "address", str))
    return _made(asked, lambda _data: remove(address))


def _move_chart_fact(asked: Asked) -> Change:
    """Put an entry of a list in a chart one earlier or later."""
    address, by = wanted(asked, "address", str), wanted(asked, "by", int)
    return _made(asked, lambda data: moved_edit(data, address, by=by))


def _step_chart(asked: Asked) -> Change:
    """Undo or redo a step of a chart."""
    chart, is_back = wanted(asked, "chart", str), wanted(asked, "back", bool)
    return lambda desk, keeping: chart_moved(desk, keeping, chart, is_back=is_back)


def _restore_chart(asked: Asked) -> Change:
    """Put an earlier revision of a chart in its place."""
    chart, number = wanted(asked, "chart", str), wanted(asked, "revision", int)
    return lambda desk, keeping: chart_restored(desk, keeping, chart, number=number)


def _take_chart_away(asked: Asked) -> Change:
    """Remove a chart from beside the rig."""
    chart = wanted(asked, "chart", str)
    return lambda desk, keeping: chart_taken_away(desk, keeping, chart)


def _name_chart(asked: Asked) -> Change:
    """Call a revision of a chart something."""
    chart, number = wanted(asked, "chart", str), wanted(asked, "revision", int)
    name = wanted(asked, "name", str)

    def change(desk: Desk, keeping: Keeping) -> Desk:
        chart_named(keeping, chart, number, name=name)
        return desk

    return change


def _made(asked: Asked, make: Callable[[Mapping[str, object]], Edit]) -> Change:
    chart = wanted(asked, "chart", str)
    seen = wanted(asked, "chart_seen", int) if "chart_seen" in asked else None
    return lambda desk, keeping: chart_edited(desk, keeping, chart, make=make, seen=seen)


CHART_DEEDS: Mapping[str, Callable[[Asked], Change]] = MappingProxyType(
    {
        "add-chart-fact": _add_chart_fact,
        "chart-fact": _chart_fact,
        "copy-chart": _copy_chart,
        "drop-chart-fact": _drop_chart_fact,
        "make-chart": _make_chart,
        "move-chart-fact": _move_chart_fact,
        "name-chart": _name_chart,
        "restore-chart": _restore_chart,
        "step-chart": _step_chart,
        "take-chart-away": _take_chart_away,
    }
)
"""Every deed on charts by the word that a page sends."""
