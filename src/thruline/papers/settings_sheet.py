"""The settings sheet: what is set on each unit by hand, in the order of the first power-up."""

from collections.abc import Iterator, Sequence

from thruline.base.measures import shown_ms
from thruline.papers.paper import Paper, Section, table_of
from thruline.proof.board import Board
from thruline.rig.preset import Preset
from thruline.rig.unit import Unit, is_omni, marked
from thruline.rig.values import Value
from thruline.rig.whole import Rig

BOX = "[ ]"
HEAD = ("", "setting", "set to", "where on the unit", "factory")


def settings_sheet(board: Board) -> Paper:
    """Every unit that has something to set, with a box to tick for each."""
    rig = board.rig
    units = bring_up_order(board)
    sections = [
        section for unit in units for section in (*_sections(rig, unit), *_outputs(board, unit))
    ]
    told = {one.id for one in units if _rows(one)}
    without = dict.fromkeys(unit.name for unit in units if unit.id not in told)
    notes = (f"Nothing to set on: {', '.join(without)}.",) if without else ()
    return Paper(
        title=f"Settings sheet: {rig.name}",
        about=(
            "In the order of the first power-up: set a unit, tick it off, test it, then the next.",
            *notes,
        ),
        sections=tuple(sections),
    )


def bring_up_order(board: Board) -> list[Unit]:
    """Supplies first, then the controller, then the units as messages reach them, then the rest."""
    rig = board.rig
    hops: dict[str, int] = {}
    if rig.controller is not None:
        for route in board.hearing.routes_from(rig.controller.id):
            known = hops.get(route.target.unit, len(route.hops))
            hops[route.target.unit] = min(known, len(route.hops))

    def place(unit: Unit) -> tuple[int, int, int]:
        if unit.chart.outlets:
            return (0, 0, unit.order)
        if unit is rig.controller:
            return (1, 0, unit.order)
        return (2, hops[unit.id], unit.order) if unit.id in hops else (3, 0, unit.order)

    return sorted(rig.units.values(), key=place)


def _sections(rig: Rig, unit: Unit) -> Iterator[Section]:
    rows = _rows(unit)
    if not rows:
        return
    unsaid = [one.name for one in unit.chart.settings.values() if one.id not in unit.stated]
    notes = [f"After the first test: {one}" for one in first_test(rig, unit)]
    if unsaid:
        notes.append(
            f"Not written in the document, taken as from the factory: {', '.join(unsaid)}."
        )
    yield Section(
        title=unit.name if unit.name == unit.chart.full_name else
        f"{unit.name} ({unit.chart.full_name})",
        table=table_of(HEAD, rows),
        notes=tuple(notes),
        about=f"settings:{unit.id}",
    )  # fmt: skip


def _outputs(board: Board, controller: Unit) -> Iterator[Section]:
    """Where a controller is told once which unit is behind which of its outputs: that."""
    if controller is not board.rig.controller:
        return
    units = board.rig.units
    told = board.routing.told_once(units.values())
    rows = [
        (BOX, units[name].name, str(units[name].sent_on), marked(controller, socket))
        for name, socket in told.items()
    ]
    if rows:
        yield Section(
            title=f"{controller.name}: outputs",
            says=("In its own set-up, give every unit the output that it is plugged into.",),
            table=table_of(("", "unit", "channel", "output"), rows),
            about=f"settings:{controller.id}",
        )


def _rows(unit: Unit) -> Sequence[tuple[str, ...]]:
    """The channel first, then every menu item of the chart."""
    rows: list[tuple[str, ...]] = []
    rule = unit.chart.channel
    if rule is not None and is_omni(unit) is not True:
        last = unit.channels[-1] if unit.channels else None
        channel = "cannot be told" if unit.channel is None else str(unit.channel)
        if last is not None and last != unit.channel:
            channel = f"{unit.channel} (takes up to {last})"
        factory = "" if rule.factory is None else str(rule.factory)
        rows.append((BOX, "MIDI channel", channel, rule.where, factory))
    for setting in unit.chart.settings.values():
        value = unit.settings[setting.id]
        rows.append((BOX, setting.name, value, setting.where, setting.factory))
    return rows


def first_test(rig: Rig, unit: Unit) -> Iterator[str]:
    """What the unit shows when the first preset that wants something of it has been pressed."""
    for preset in rig.presets:
        goal = preset.goal_for(unit.id)
        if goal is None:
            continue
        if goal.program is not None and goal.program.wire is not None:
            settle = unit.chart.settle
            after = f", {shown_ms(settle.load_us)} later" if settle else ""
            yield f"press {preset.title}; it shows {goal.program.label}{after}."
            return
        shows = _shows(preset, unit)
        if shows:
            yield f"press {preset.title}; it shows {shows}."
            return


def _shows(preset: Preset, unit: Unit) -> str:
    goal = preset.goal_for(unit.id)
    values = [
        f"{one.control.name} {one.value.shown}"
        for one in (goal.controls if goal else ())
        if isinstance(one.value, Value)
    ]
    return ", ".join(values)
