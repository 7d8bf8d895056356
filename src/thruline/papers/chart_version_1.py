"""The implementation chart on one page: version 1 of the standard sheet.

Source: MIDI 1.0 Detailed Specification, pages A-7 and A-8: Function, Transmitted, Recognized,
Remarks; `o` for yes and `x` for no. What a chart does not say gets a mark of its own.
"""

from collections.abc import Iterator, Mapping
from typing import TypeAlias

from thruline.papers.chart_traffic import (
    Told,
    Topic,
    modes,
    number_ranges,
    recognizes,
    sent_on,
    transmits,
)
from thruline.papers.chart_words import (
    bank_numbers,
    carried_by,
    numbers_of,
    programs_in_words,
    values_in_words,
    wire_numbers,
)
from thruline.papers.paper import Section, Table
from thruline.rig.chart import Chart
from thruline.rig.values import Control, ControlMessage

HEAD = ("Function", "", "Transmitted", "Recognized", "Remarks")
APART = "*****"
"""Where a question makes no sense for the row."""
LEGEND = (
    "o: yes   x: no   ?: the chart does not say   *****: does not apply",
    "Mode 1: OMNI ON, POLY    Mode 2: OMNI ON, MONO",
    "Mode 3: OMNI OFF, POLY   Mode 4: OMNI OFF, MONO",
)

_Row: TypeAlias = tuple[str, str, str, str, str]


def version_1(chart: Chart) -> Section:
    """The sheet of version 1."""
    rows = (*_addressing(chart), *_voices(chart), *_controls(chart), *_system(chart))
    return Section(
        title="MIDI implementation chart, version 1", table=Table(HEAD, rows), notes=LEGEND
    )


def mark(told: Told) -> str:
    """The sign for yes, no, and not told."""
    return "?" if told.known is None else "o" if told.known else "x"


def _addressing(chart: Chart) -> Iterator[_Row]:
    sent = "each its own" if chart.abilities is not None else mark(sent_on(chart))
    changed = "1-16" if chart.abilities is not None else sent
    rule = chart.channel
    default = "x" if rule is None else str(rule.factory or "?")
    allowed = "x" if rule is None else number_ranges(rule.allowed)
    remark = ""
    if rule is not None and rule.occupies > 1:
        remark = f"takes {rule.occupies} channels in a row"
    yield "Basic Channel", "Default", sent, default, rule.where if rule else ""
    yield "", "Changed", changed, allowed, remark
    usual, possible = modes(chart)
    shown = "x" if not possible else f"Mode {usual}" if usual else "?"
    other = possible - {usual} if usual else possible
    yield "Mode", "Default", APART, shown, ""
    out, heard = (mark(ask(chart, Topic.OTHER)) for ask in (transmits, recognizes))
    yield "", "Messages", out, heard, ""
    remark = f"can also be Mode {number_ranges(other)}" if other and usual else ""
    yield "", "Altered", APART, APART, remark


def _voices(chart: Chart) -> Iterator[_Row]:
    note_out, note_in = transmits(chart, Topic.NOTE), recognizes(chart, Topic.NOTE)
    out, heard = (mark(ask(chart, Topic.OTHER)) for ask in (transmits, recognizes))
    velocity = "x" if note_in.known is False else heard
    yield "Note Number", "", mark(note_out), "0-127" if note_in.known else mark(note_in), ""
    yield "", "True Voice", APART, APART if note_in.known is False else "?", ""
    yield "Velocity", "Note ON", mark(note_out), velocity, ""
    yield "", "Note OFF", mark(note_out), velocity, ""
    yield "After Touch", "Key's", out, heard, ""
    yield "", "Ch's", out, heard, ""
    yield "Pitch Bend", "", out, heard, ""


def _controls(chart: Chart) -> Iterator[_Row]:
    """One row a number, as far as numbers are known; then the program change."""
    sent, heard = transmits(chart, Topic.CONTROL), recognizes(chart, Topic.CONTROL)
    rows = list(_numbered(chart, mark(sent), mark(heard)))
    remark = _joined(heard.remark, sent.remark)
    if not rows:
        any_number = "0-119" if chart.abilities is not None else ""
        rows = [(any_number, mark(sent), mark(heard), remark)]
    elif remark:
        rows.append(("all of them", "", "", remark))
    for place, row in enumerate(rows):
        yield "Control Change" if place == 0 else "", *row
    yield from _programs(chart)


def _numbered(chart: Chart, sent: str, heard: str) -> Iterator[tuple[str, str, str, str]]:
    """What each control number does, in the order of the numbers."""
    rows: list[tuple[int, str, str, str]] = []
    banks = bank_numbers(chart.programs) if chart.programs else ()
    for number in banks:
        half = "coarse" if number == 0 else "fine"
        says = f"Bank Select, {half} half"
        rows.append((number, str(number), mark(transmits(chart, Topic.PROGRAM)), says))
    for control in chart.controls.values():
        order = control.number + (128 if _is_parameter(control) else 0)
        says = f"{control.name}: {values_in_words(control)}"
        rows.append((order, carried_by(control), sent, says))
    entry = {n for one in chart.controls.values() if _is_parameter(one) for n in numbers_of(one)}
    if entry:
        rows.append((127, number_ranges(entry), sent, "parameter number and data entry"))
    yield from ((number, out, heard, says) for _, number, out, says in sorted(rows))


def _is_parameter(control: Control) -> bool:
    return control.message in (ControlMessage.RPN, ControlMessage.NRPN)


def _joined(*remarks: str) -> str:
    """Remarks in a row, each once."""
    return "; ".join(dict.fromkeys(filter(None, remarks)))


def _programs(chart: Chart) -> Iterator[_Row]:
    sent, heard = transmits(chart, Topic.PROGRAM), recognizes(chart, Topic.PROGRAM)
    span, says, true = mark(heard), "", APART if heard.known is False else "?"
    if heard.known and chart.programs is not None:
        span, says, true = (
            "o 0-127",
            programs_in_words(chart.programs),
            wire_numbers(chart.programs),
        )
    out = "o 0-127" if sent.known and chart.abilities is not None else mark(sent)
    yield "Prog Change", "", out, span, says
    yield "", "True #", APART, true, _joined(heard.remark, sent.remark)


def _system(chart: Chart) -> Iterator[_Row]:
    sent, heard = (ask(chart, Topic.SYSTEM_EXCLUSIVE) for ask in (transmits, recognizes))
    remark = _joined(heard.remark, sent.remark)
    yield "System Exclusive", "", mark(sent), mark(heard), remark
    for function, rows in _SYSTEM.items():
        for place, (row, topic) in enumerate(rows.items()):
            sent, heard = transmits(chart, topic), recognizes(chart, topic)
            remark = _joined(heard.remark, sent.remark if topic is not Topic.OTHER else "")
            yield function if place == 0 else "", row, mark(sent), mark(heard), remark


_SYSTEM: Mapping[str, Mapping[str, Topic]] = {
    "System Common": {"Song Pos": Topic.OTHER, "Song Sel": Topic.OTHER, "Tune": Topic.OTHER},
    "System Real Time": {"Clock": Topic.CLOCK, "Commands": Topic.START_STOP},
    "Aux Messages": {
        "Local ON/OFF": Topic.OTHER,
        "All Notes OFF": Topic.OTHER,
        "Active Sense": Topic.ACTIVE_SENSING,
        "Reset": Topic.OTHER,
    },
}
"""The rows of system messages on the sheet, and what each is about."""
