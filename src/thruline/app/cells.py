"""What a preset wants of a unit, as a musician types it: `11B, mix 50%, in`.

A cell holds a program's label, controls with their values, and the state of a relay loop, in any
order, with commas between. Reading a cell and writing it are inverses for every cell that makes
sense.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from thruline.base.edit import Plain
from thruline.rig.programs import label_at, label_to_wire
from thruline.rig.unit import Unit
from thruline.rig.values import Control, NotUnderstood, example_for, read_value

LONGEST = 400
"""Letters of a cell."""
_BETWEEN = re.compile(r"\s*(?:;|,(?!\d)|(?<!\d),)\s*")
"""A comma between two digits is a decimal comma."""
_WHOLE = re.compile(r"-?\d{1,6}")
_LOOP = ("in", "out")


@dataclass(frozen=True, slots=True)
class NotACell:
    """Why a text makes no sense in a cell, and one that would."""

    why: str
    example: str


def cell_text(raw: object) -> str:
    """What stands in a document, as it is typed into a cell."""
    if raw is None:
        return ""
    if not isinstance(raw, Mapping):
        return _word(raw)
    parts = [_word(raw["program"])] if "program" in raw else []
    parts += [f"{key} {_word(raw[key])}" for key in raw if key not in ("program", "loop")]
    if "loop" in raw:
        parts.append(_word(raw["loop"]))
    return ", ".join(parts)


def _word(value: object) -> str:
    if isinstance(value, bool):
        return "on" if value else "off"
    return f"{value:g}" if isinstance(value, float) else str(value)


def read_cell(unit: Unit, text: str, raw: object = None) -> "Plain | NotACell | None":
    """What to write into the document for a text; None when the cell is to be empty.

    `raw` is what stands there now: parts that stay the same keep the form in which they are
    written.
    """
    if len(text) > LONGEST:
        return NotACell(f"this has more than {LONGEST} letters", example_of(unit))
    text = text.strip()
    if not text:
        return None
    if text == cell_text(raw):
        return _same(raw)
    wanted: dict[str, Plain] = {}
    for part in filter(None, _BETWEEN.split(text)):
        found = _read_part(unit, part)
        if isinstance(found, NotACell):
            return found
        key, value = found
        if key in wanted:
            return NotACell(f'"{part}" is the second {_called(unit, key)} here', example_of(unit))
        wanted[key] = value
    return _as_written(wanted, raw) if wanted else None


def _same(raw: object) -> "Plain":
    if isinstance(raw, Mapping):
        return dict(raw)
    return raw if isinstance(raw, str | int | float | bool) else str(raw)


def _read_part(unit: Unit, part: str) -> "tuple[str, Plain] | NotACell":
    """One part: a loop's state, a control with its value, or a program's label."""
    control = _control_of(unit, part)
    if control is not None:
        return _read_control(*control)
    if part.lower() in _LOOP:
        return "loop", part.lower()
    label = re.sub(r"(?i)^program\s+", "", part)
    numbering = unit.chart.programs
    if numbering is not None and label_to_wire(numbering, label) is not None:
        return "program", label
    if numbering is None:
        why = f'"{part}" is no control of {unit.name}, and it has no programs'
    else:
        why = f'"{part}" is no program and no control of {unit.name}'
    return NotACell(why, example_of(unit))


def _control_of(unit: Unit, part: str) -> tuple[Control, str] | None:
    """The control that a part begins with, by id or by name, the longest first; and the rest."""
    low = part.lower()
    controls = unit.chart.controls.values()
    names = [(name.lower(), one) for one in controls for name in (one.id, one.name)]
    begun = [(name, one) for name, one in names if low.startswith(name)]
    for name, control in sorted(begun, key=lambda each: -len(each[0])):
        rest = part[len(name) :]
        if not rest or not rest[0].isalnum():
            return control, rest.lstrip(" =:\t").rstrip()
    return None


def _read_control(control: Control, text: str) -> "tuple[str, Plain] | NotACell":
    written: str | int = int(text) if _WHOLE.fullmatch(text) else text.replace(",", ".")
    example = f"{control.id} {example_value(control)}"
    if not text:
        return NotACell(f"{control.name} wants a value", example)
    value = read_value(control, written)
    if isinstance(value, NotUnderstood):
        plain = read_value(control, text)  # a number may be the label of a choice
        if isinstance(plain, NotUnderstood):
            return NotACell(value.why, example)
        return control.id, text
    return control.id, written


def _as_written(wanted: Mapping[str, "Plain"], raw: object) -> "Plain":
    """Parts that are there already keep their form; a program alone is written as one word."""
    old: Mapping[str, Any] = raw if isinstance(raw, Mapping) else {}
    if raw is not None and not isinstance(raw, Mapping):
        old = {_bare_key(raw): raw}
    kept: dict[str, Plain] = {
        key: old[key] if key in old and _word(old[key]) == _word(value) else value
        for key, value in wanted.items()
    }
    is_bare = len(kept) == 1 and not isinstance(raw, Mapping)
    if is_bare and ("loop" in kept or ("program" in kept and not _is_loop(kept["program"]))):
        return next(iter(kept.values()))
    return kept


def _bare_key(raw: object) -> str:
    return "loop" if _is_loop(raw) else "program"


def _is_loop(value: object) -> bool:
    return str(value) in _LOOP


def _called(unit: Unit, key: str) -> str:
    control = unit.chart.controls.get(key)
    return control.name if control is not None else {"loop": "loop state"}.get(key, key)


def example_value(control: Control) -> str:
    """A value that a control understands, as it is typed."""
    return example_for(control).strip('"').replace(" %", "%")


def example_of(unit: Unit) -> str:
    """A cell that would make sense for a unit."""
    parts = []
    if unit.chart.programs is not None:
        parts.append(label_at(unit.chart.programs, 0))
    control = next(iter(unit.chart.controls.values()), None)
    if control is not None:
        parts.append(f"{control.id} {example_value(control)}")
    return ", ".join(parts) or "in"
