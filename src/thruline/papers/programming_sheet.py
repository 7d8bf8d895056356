"""The programming sheet: what is typed into the controller, in its own numbers, in its order."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from thruline.compose.goals import loop_control
from thruline.compose.meaning import Meaning, meanings
from thruline.papers.paper import Paper, Section, table_of
from thruline.proof.case import Case
from thruline.rig.controller import Routing
from thruline.rig.preset import Preset, Stored
from thruline.rig.sweep import Move, Sweep
from thruline.rig.unit import Unit, marked
from thruline.rig.values import NotUnderstood, Value
from thruline.rig.whole import Rig
from thruline.timing.sending import Item

BOX = "[ ]"
HEAD = ("", "no", "enter", "channel", "number", "value", "for")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One row to type: what kind it is, and the numbers as the controller's screen shows them.

    `value` is None for what has one number only, `channel` for what has none. `output` is the one
    to choose for it, as it is marked, where the controller chooses one for each message.
    """

    enter: str
    channel: int | None
    number: int
    value: int | None
    says: str
    output: str = ""

    @property
    def total(self) -> int:
        """What the row adds to the total: its channel and its numbers."""
        return (self.channel or 0) + self.number + (self.value or 0)

    @property
    def brief(self) -> str:
        """The row as documents write it, the channel first: `3: program 22`."""
        channel = "" if self.channel is None else f"{self.channel}: "
        value = "" if self.value is None else f" = {self.value}"
        over = f" over {self.output}" if self.output else ""
        return f"{channel}{self.enter} {self.number}{value}{over}"


def entries(case: Case, preset: Preset) -> tuple[Entry, ...]:
    """What a preset has to hold, row by row: its goals in the best order, pauses between."""
    rig = case.rig
    run = case.run(preset)
    rows: list[Entry] = []
    for item, meaning in zip(run.sending.items, meanings(rig, preset, run), strict=True):
        if item.pause_us:
            rows.append(_pause(item.pause_us))
        rows.append(entry(case, item, meaning))
    return tuple(rows)


def _output(case: Case, unit: str | None) -> str:
    """The output to choose for a message to a unit; "all" for one that is for no unit.

    Nothing where the controller chooses none for each message.
    """
    controller, routing = case.rig.controller, case.board.routing
    if controller is None or routing.choice is not Routing.BY_MESSAGE:
        return ""
    socket = routing.over.get(unit or "")
    return marked(controller, socket) if socket else "all"


def _pause(us: int) -> Entry:
    return Entry(enter="pause, ms", channel=None, number=-(-us // 1000), value=None, says="wait")


def entry(case: Case, item: Item, meaning: Meaning) -> Entry:
    """One message as it is typed into the rig's controller, in the numbers of its own screen."""
    row = _entry(item, meaning, case.rig.programs_from)
    return replace(row, output=_output(case, item.unit))


def _entry(item: Item, meaning: Meaning, shown_from: int) -> Entry:
    status, data = item.data[0], item.data[1:]
    channel = (status & 0x0F) + 1
    match status & 0xF0:
        case 0xC0:
            number = data[0] + shown_from
            return Entry(
                enter="program", channel=channel, number=number, value=None, says=meaning.says
            )
        case 0xB0:
            return Entry(
                enter="control", channel=channel, number=data[0], value=data[1], says=meaning.says
            )
        case _:
            total = sum(item.data)
            says = f"{item.data.hex(' ').upper()}: {meaning.says}"
            return Entry(
                enter="bytes, their sum", channel=None, number=total, value=None, says=says
            )


def programming_sheet(rig: Rig, before: Case | None = None) -> Paper:
    """Every preset, then what the pedals move.

    It says what the goals ask for, whatever the memory of the controller holds now. `before` is a
    case of the same rig, from which is taken over what is worked out already.
    """
    presets = tuple(one if one.stored is None else replace(one, stored=None) for one in rig.presets)
    case = Case(replace(rig, presets=presets), before)
    sections = [
        _section(case, preset, now=found.stored)
        for preset, found in zip(case.rig.presets, rig.presets, strict=True)
    ]
    return Paper(
        title=f"Programming sheet: {rig.name}",
        about=tuple(_about(rig)),
        sections=(*sections, *_pedals(case)),
    )


def _about(rig: Rig) -> Iterator[str]:
    if rig.controller is None:
        yield "This rig has no controller: the numbers are those on the wire."
        return
    first = rig.programs_from
    yield (
        f"For {rig.controller.name}, in the numbers of its own screen: its first program is "
        f"{first}, channels count from 1. Enter the rows from the top."
    )
    yield "Total: all channels, numbers, values and pauses of a preset added up, to check against."


def _section(case: Case, preset: Preset, *, now: Sequence[Stored] | None) -> Section:
    rows = entries(case, preset)
    cells = [
        (
            BOX,
            str(place),
            one.enter,
            "" if one.channel is None else str(one.channel),
            str(one.number),
            "" if one.value is None else str(one.value),
            f"{one.says}; output {one.output}" if one.output else one.says,
        )
        for place, one in enumerate(rows, 1)
    ]
    messages = sum(one.says != "wait" for one in rows)
    notes = [f"{messages} messages, {len(rows)} rows, total {sum(one.total for one in rows)}."]
    if now is not None:
        notes.append("The memory holds something else now, as the document says: enter it anew.")
    loops = ", ".join(_loops(case.rig, preset))
    return Section(
        title=f"Preset {preset.title}",
        says=(f"Loops: {loops}.",) if loops else (),
        table=table_of(HEAD, cells),
        notes=tuple(notes),
        about=f"preset:{preset.number}",
    )


def _loops(rig: Rig, preset: Preset) -> Iterator[str]:
    """The relay loops of the controller that the preset puts in or out."""
    for goal in preset.goals:
        hung = rig.audio.loop_of(goal.unit) if rig.audio else None
        if goal.in_loop is None or hung is None or loop_control(rig, goal) is not None:
            continue
        state = "in" if goal.in_loop else "out"
        yield f"{hung[1].replace('-', ' ')} {state} ({rig.units[goal.unit].name})"


def _pedals(case: Case) -> Iterator[Section]:
    rig = case.rig
    for sweep in rig.sweeps:
        rows = [
            _move(rig.units.get(move.unit), move, over=_output(case, move.unit))
            for move in sweep.moves
        ]
        yield Section(
            title=f'Pedal {_jack(rig, sweep)}: sweep "{sweep.name}"',
            says=(f"On presets: {_presets(rig, sweep)}.",),
            table=table_of(("", "channel", "control", "heel", "toe", "curve", "for"), rows),
        )


def _jack(rig: Rig, sweep: Sweep) -> str:
    unit = rig.units.get(sweep.pedal.unit)
    return marked(unit, sweep.pedal.socket) if unit else sweep.pedal.socket


def _move(unit: Unit | None, move: Move, *, over: str) -> tuple[str, ...]:
    name = unit.name if unit else move.unit
    curve = move.curve.name
    if move.curve.points:
        curve = " ".join(f"{travel}:{share}" for travel, share in move.curve.points)
    return (
        BOX,
        str(unit.sent_on or "") if unit else "",
        str(move.control.number),
        _wire(move.heel),
        _wire(move.toe),
        curve,
        f"{name}: {move.control.name} {_shown(move.heel)} to {_shown(move.toe)}"
        + (f"; output {over}" if over else ""),
    )


def _wire(value: Value | NotUnderstood) -> str:
    return str(value.wire) if isinstance(value, Value) else "?"


def _shown(value: Value | NotUnderstood) -> str:
    return value.shown if isinstance(value, Value) else value.written


def _presets(rig: Rig, sweep: Sweep) -> str:
    if {preset.number for preset in rig.presets} <= set(sweep.presets):
        return "all"
    return _listed(sorted(set(sweep.presets)))


def _listed(numbers: Sequence[int]) -> str:
    return ", ".join(map(str, numbers))
