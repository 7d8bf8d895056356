"""What a code is called, in the words of the unit that it is about."""

from thruline.rig.programs import WireProgram, wire_to_label
from thruline.rig.unit import Unit
from thruline.rig.values import shown
from thruline.sameness.codes import AS_POWERED, IN, KEEPS, NOTHING, UNTOLD, program_of
from thruline.sameness.columns import Column, ColumnKind


def name_of(column: Column) -> str:
    """What a column is called on its unit: a control's name, "program", "bank", a loop's id."""
    match column.kind:
        case ColumnKind.CONTROL if column.control is not None:
            return column.control.name
        case ColumnKind.BANK:
            return f"bank {column.part.upper()}"
        case _:
            return column.part


def in_words(code: int, column: Column, unit: Unit) -> str:
    """What a code says of a column of this unit, to follow "it is"."""
    if code == AS_POWERED:
        return "what it powers up with"
    if code in (KEEPS, NOTHING):
        return "as it was"
    if code == UNTOLD:
        return "what nobody can tell"
    program = program_of(code)
    if program is not None:
        label = program_label(unit, program)
        return label if column.kind is ColumnKind.PROGRAM else f"what {label} holds"
    if column.kind is ColumnKind.LOOP:
        return "in" if code == IN else "out"
    return str(code) if column.control is None else shown(column.control, code)


def program_label(unit: Unit, program: WireProgram) -> str:
    """A program as the unit's own display shows it."""
    numbering = unit.chart.programs
    label = wire_to_label(numbering, program) if numbering else None
    return f"program {program.program}" if label is None else f"program {label}"
