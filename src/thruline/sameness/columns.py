"""What is followed from preset to preset: controls, programs, bank registers and relay loops.

Momentary controls leave nothing behind, and `toggle-any` ones are looked at by `toggles`.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

import numpy as np

from thruline.rig.chart import Chart
from thruline.rig.programs import BankBytes
from thruline.rig.unit import Unit
from thruline.rig.values import Control, ControlKind
from thruline.rig.whole import Rig
from thruline.sameness.codes import AS_POWERED, Codes, Marks, Places, Truths, is_coarse, seen
from thruline.timing.receive import BANK_LSB, BANK_MSB


class ColumnKind(StrEnum):
    """What kind of thing a column follows."""

    CONTROL = "control"
    PROGRAM = "program"
    """Which program a unit has loaded."""
    BANK = "bank"
    """A bank register: what a bank select left for the next program change."""
    LOOP = "loop"
    """A relay loop of the controller itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One thing that is followed.

    `part` is a control's id, `program`, `msb` or `lsb` of the bank, or a loop's id. `power_up` is
    its code before anything was recalled. `stored` tells whether a program change sets it to what
    the program holds; None when the chart does not say.
    """

    unit: str
    kind: ColumnKind
    part: str
    power_up: int = AS_POWERED
    stored: bool | None = False
    control: Control | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitColumns:
    """Where one unit's columns are: `controls` by id, `banks` by the number of the bank select.

    `program` is None for a unit without programs. `coarse` are controls of which the unit tells
    fewer values apart than can be sent.
    """

    id: str
    chart: Chart
    columns: range
    program: int | None
    controls: Mapping[str, int]
    coarse: Mapping[str, Control]
    banks: Mapping[int, int]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Layout:
    """All columns of a rig, unit by unit, and where to find them.

    `loops` finds the column of the relay loop that a unit hangs in. Arrays with one entry a column:
    `unit_of` is a place in `units`; `stored` is 1 for yes, 0 for no, -1 where the chart is silent;
    `is_bank` marks bank registers; `power_up` are codes.
    """

    columns: tuple[Column, ...]
    units: tuple[UnitColumns, ...]
    loops: Mapping[str, int]
    unit_of: Places
    stored: Marks
    is_bank: Truths
    power_up: Codes

    def find(self, unit: str, part: str, kind: ColumnKind = ColumnKind.CONTROL) -> int:
        """The place of a column. Raises KeyError when nothing of the kind is followed."""
        for place, column in enumerate(self.columns):
            if (column.unit, column.part, column.kind) == (unit, part, kind):
                return place
        raise KeyError(f"{unit}.{part}")


def same_columns(one: Rig, other: Rig) -> bool:
    """Whether two rigs have the very same layout: the same units, charts and audio path."""
    return (
        [(unit.id, id(unit.chart)) for unit in one.units.values()]
        == [(unit.id, id(unit.chart)) for unit in other.units.values()]
        and one.audio == other.audio
        and (one.controller and one.controller.id) == (other.controller and other.controller.id)
    )


def layout_of(rig: Rig) -> Layout:
    """The columns of a rig. They depend on its units, its charts and its audio path alone."""
    columns: list[Column] = []
    units = []
    for unit in rig.units.values():
        first = len(columns)
        columns.extend(_columns_of(unit))
        places = range(first, len(columns))
        if places:
            units.append(_unit_columns(unit, places, columns))
    loops = _loops(rig, columns)
    where = {one.id: place for place, one in enumerate(units)}
    marks = {True: 1, False: 0, None: -1}
    return Layout(
        columns=tuple(columns),
        units=tuple(units),
        loops=MappingProxyType(loops),
        unit_of=np.array([where.get(column.unit, -1) for column in columns], np.intp),
        stored=np.array([marks[column.stored] for column in columns], np.int8),
        is_bank=np.array([column.kind is ColumnKind.BANK for column in columns], np.bool_),
        power_up=np.array([column.power_up for column in columns], np.int32),
    )


def _columns_of(unit: Unit) -> Iterator[Column]:
    """The columns of a unit that listens."""
    if not unit.chart.listens:
        return
    numbering = unit.chart.programs
    if numbering is not None:
        yield Column(unit=unit.id, kind=ColumnKind.PROGRAM, part="program", stored=True)
        for part in _BANK_PARTS[numbering.bank_bytes]:
            yield Column(unit=unit.id, kind=ColumnKind.BANK, part=part)
    for control in unit.chart.controls.values():
        if control.kind not in (ControlKind.MOMENTARY, ControlKind.TOGGLE_ANY):
            yield Column(
                unit=unit.id,
                kind=ColumnKind.CONTROL,
                part=control.id,
                power_up=AS_POWERED
                if control.power_up is None
                else seen(control, control.power_up),
                stored=control.stored,
                control=control,
            )


_BANK_PARTS: Mapping[BankBytes, tuple[str, ...]] = MappingProxyType(
    {
        BankBytes.NONE: (),
        BankBytes.MSB: ("msb",),
        BankBytes.LSB: ("lsb",),
        BankBytes.BOTH: ("msb", "lsb"),
    }
)
_BANK_NUMBER = {"msb": BANK_MSB, "lsb": BANK_LSB}


def _unit_columns(unit: Unit, places: range, columns: list[Column]) -> UnitColumns:
    of_kind = {
        kind: {columns[place].part: place for place in places if columns[place].kind is kind}
        for kind in ColumnKind
    }
    controls = of_kind[ColumnKind.CONTROL]
    known = unit.chart.controls
    return UnitColumns(
        id=unit.id,
        chart=unit.chart,
        columns=places,
        program=next(iter(of_kind[ColumnKind.PROGRAM].values()), None),
        controls=MappingProxyType(controls),
        coarse=MappingProxyType({name: known[name] for name in controls if is_coarse(known[name])}),
        banks=MappingProxyType(
            {_BANK_NUMBER[part]: place for part, place in of_kind[ColumnKind.BANK].items()}
        ),
    )


def _loops(rig: Rig, columns: list[Column]) -> dict[str, int]:
    """Adds a column for each loop of the controller; the column of each unit that hangs in one."""
    found: dict[str, int] = {}
    if rig.audio is None or rig.controller is None:
        return found
    places: dict[str, int] = {}
    for stage in rig.audio.stages:
        if stage.loop is None or stage.unit != rig.controller.id:
            continue
        if stage.loop not in places:
            places[stage.loop] = len(columns)
            columns.append(Column(unit=stage.unit, kind=ColumnKind.LOOP, part=stage.loop))
        found |= dict.fromkeys(stage.inside, places[stage.loop])
    return found
