"""The implementation chart of a model: the standard sheet, and what that has no room for."""

from collections.abc import Iterator

from thruline.papers.chart_behaviour import behaviour
from thruline.papers.chart_hardware import hardware
from thruline.papers.chart_traffic import has_sheet
from thruline.papers.chart_version_1 import version_1
from thruline.papers.chart_version_2 import version_2
from thruline.papers.paper import Paper, Section
from thruline.rig.chart import Chart, Way


def implementation_chart(chart: Chart, *, three_parts: bool = False) -> Paper:
    """The sheet of version 1, or of version 2 in three parts; then everything else that is known.

    A unit that neither sends nor obeys messages has no sheet, and is told by the rest.
    """
    firmware = f"firmware {chart.firmware}" if chart.firmware else "firmware not told"
    kind = "MIDI implementation chart" if has_sheet(chart) else "what is known of it"
    return Paper(
        title=f"{chart.full_name}: {kind}",
        about=tuple(filter(None, (f"{chart.kind}, {firmware} (chart {chart.id})", chart.about))),
        sections=(*_sheet(chart, three_parts=three_parts), *behaviour(chart), *hardware(chart)),
    )


def _sheet(chart: Chart, *, three_parts: bool) -> Iterator[Section]:
    if not has_sheet(chart):
        yield Section(title="MIDI", says=(_why_none(chart),))
    elif three_parts:
        yield from version_2(chart)
    else:
        yield version_1(chart)


def _why_none(chart: Chart) -> str:
    if any(way is not Way.OFF for output in chart.outputs.values() for way in output.ways):
        return "It passes messages on, and neither obeys any nor has any of its own."
    if chart.bonds:
        return "A passive adapter: it joins contacts, and knows nothing of messages."
    return "It has nothing to do with MIDI messages."
