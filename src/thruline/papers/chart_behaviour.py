"""What the standard sheet has no room for: programs, controls, loading, settings, forwarding."""

from collections.abc import Iterator, Mapping

from thruline.base.measures import shown_ms
from thruline.papers.chart_words import (
    bank_reading,
    carried_by,
    example_labels,
    program_bytes,
    programs_in_words,
    values_in_words,
)
from thruline.papers.paper import Section, table_of
from thruline.rig.chart import Chart, Meanwhile, Output, Setting, Settle, Way
from thruline.rig.programs import Numbering, label_to_wire
from thruline.rig.values import Control, ControlKind, example_for

NOT_TOLD = "?"
_YES_OR_NO: Mapping[bool | None, str] = {True: "yes", False: "no", None: NOT_TOLD}
_MEANWHILE: Mapping[Meanwhile | None, str] = {
    Meanwhile.LOST: "are lost",
    Meanwhile.HELD: "are held, and obeyed afterwards",
    Meanwhile.OBEYED: "are obeyed",
    None: "may be lost: the chart does not say",
}


def behaviour(chart: Chart) -> Iterator[Section]:
    """How labels become bytes, what values mean, how long it loads, its menu, its outputs."""
    channel = (chart.channel.factory if chart.channel else None) or 1
    if chart.programs is not None:
        yield _programs(chart.programs, channel)
    if chart.controls:
        yield _controls(chart)
    if chart.settle is not None:
        yield _loading(chart.settle)
    if chart.settings:
        yield _settings(chart.settings)
    if chart.outputs:
        yield _outputs(chart.outputs)


def _programs(numbering: Numbering, channel: int) -> Section:
    wires = {label: label_to_wire(numbering, label) for label in example_labels(numbering)}
    rows = [
        (label, str(wire.bank), str(wire.program), program_bytes(numbering, wire, channel))
        for label, wire in wires.items()
        if wire is not None
    ]
    after = "falls back to 0" if numbering.bank_cleared else "stays"
    reading = bank_reading(numbering.bank_bytes)
    return Section(
        title="Programs",
        says=(f"{programs_in_words(numbering)}; it {reading}.",),
        table=table_of(
            ("Display", "Bank", "Program change", f"On the wire, channel {channel}"), rows
        ),
        notes=(f"Numbers are those of the wire, from 0. After a program change its bank {after}.",),
    )


def _controls(chart: Chart) -> Section:
    rows = [
        (
            f"{control.name} ({control.id})",
            carried_by(control),
            values_in_words(control),
            written_forms(control),
            _stored(chart, control),
            control.expression or NOT_TOLD,
            NOT_TOLD if control.power_up is None else str(control.power_up),
        )
        for control in chart.controls.values()
    ]
    head = (
        "Control",
        "Number",
        "Wire = display",
        "Written in a rig",
        "Stored",
        "Pedal",
        "Power-up",
    )
    return Section(
        title="Controls",
        table=table_of(head, rows),
        notes=(
            "Stored: a program change sets it to what the program holds.",
            "Pedal: whether a sweep of it is smooth. Power-up: its wire value at switch-on.",
        ),
    )


def _stored(chart: Chart, control: Control) -> str:
    keeps = control.kind not in (ControlKind.MOMENTARY, ControlKind.TOGGLE_ANY)
    return _YES_OR_NO[control.stored] if keeps and chart.programs is not None else "-"


def written_forms(control: Control) -> str:
    """How a preset may write a value: the wire number, percent, the display's own words.

    Where the display itself counts in percent, percent are those of the display.
    """
    example = example_for(control)
    if control.kind is not ControlKind.RANGE:
        return example
    middle = (control.low + control.high + 1) // 2
    in_percent = control.scale is not None and control.scale.unit == "%"
    forms = (str(middle), *(() if in_percent else ('"50%"',)), example.replace(" %", "%"))
    return ", ".join(dict.fromkeys(forms))


def _loading(settle: Settle) -> Section:
    return Section(
        title="Loading",
        says=(
            f"From a program change to its sound: {shown_ms(settle.load_us)}.",
            f"Control changes meanwhile {_MEANWHILE[settle.controls]}.",
            f"From a control change to its sound: {shown_ms(settle.apply_us)}.",
        ),
    )


def _settings(settings: Mapping[str, Setting]) -> Section:
    rows = [
        (
            f"{one.name} ({one.id})",
            ", ".join(_value(one, value) for value in one.values),
            one.factory,
            one.governs.value + (f" of {one.socket}" if one.socket else ""),
            one.where or NOT_TOLD,
        )
        for one in settings.values()
    ]
    head = ("Setting", "Values", "Factory", "Decides", "Where to find it")
    return Section(title="Settings", table=table_of(head, rows))


def _value(setting: Setting, value: str) -> str:
    means = setting.means.get(value, value)
    return value if means == value else f"{value} ({means})"


def _outputs(outputs: Mapping[str, Output]) -> Section:
    rows = [
        (
            one.socket,
            " or ".join(one.ways),
            ", ".join(one.sources) or "-",
            _latency(one),
            ", ".join(sorted(one.blocks)) or "-",
            _buffer(one),
            _YES_OR_NO[one.running_status] if _speaks(one) else "-",
        )
        for one in outputs.values()
    ]
    head = ("Output", "Can be", "Passes on", "Latency", "Holds back", "Buffer", "Running status")
    return Section(
        title="MIDI outputs",
        table=table_of(head, rows),
        notes=(
            "thru-wire: an electrical copy. thru-soft: received, then sent again.",
            "merge: that, mixed with what it says itself. own: what it says itself, and no more.",
        ),
    )


def _latency(output: Output) -> str:
    if Way.THRU_WIRE in output.ways:
        skew = NOT_TOLD if output.skew_ns is None else f"{output.skew_ns} ns"
        return f"skew {skew}"
    if not any(way.forwards for way in output.ways):
        return "-"
    if output.latency_us is None:
        return NOT_TOLD
    return f"{shown_ms(output.latency_us)} a {'byte' if output.by_byte else 'message'}"


def _buffer(output: Output) -> str:
    if not any(way in (Way.THRU_SOFT, Way.MERGE) for way in output.ways):
        return "-"
    return NOT_TOLD if output.buffer_bytes is None else f"{output.buffer_bytes} bytes"


def _speaks(output: Output) -> bool:
    """Whether it can send anything that is not an electrical copy."""
    return any(way in (Way.THRU_SOFT, Way.MERGE, Way.OWN) for way in output.ways)
