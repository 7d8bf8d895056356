"""Travels of pedals as numbers: which control, which half of it, from where to where.

A plain control moves in one message. A 14-bit pair and a parameter (RPN or NRPN, MIDI 1.0) move in
a coarse and a fine half, and a parameter is selected again before every value.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from thruline.midi.message import ControlChange
from thruline.midi.parameters import (
    ENTRY_COARSE,
    ENTRY_FINE,
    NOTHING_SELECTED,
    Entry,
    Parameter,
    ParameterKind,
    Selection,
    hear,
)
from thruline.rig.values import Control, ControlMessage

Code = TypeVar("Code", int, NDArray[np.int64])
CONTROL_STATUS = 0xB0
FINE = 1 << 14
"""Marks the fine half of a pair or of a parameter."""
NON_REGISTERED, REGISTERED = 1 << 15, 1 << 16
"""Mark a parameter; its number stands below."""
FINE_ABOVE = 32
"""The fine half of a 14-bit pair is this much above the coarse one."""
SELECTORS = frozenset((98, 99, 100, 101))
"""Controls that say which parameter is meant."""
ENTRIES = frozenset((ENTRY_COARSE, ENTRY_FINE))
"""Controls that give it its value."""


def code_of(control: Control) -> int:
    """One number for what a control is reached by: below 128 a plain control change."""
    match control.message:
        case ControlMessage.NRPN:
            return NON_REGISTERED | control.number
        case ControlMessage.RPN:
            return REGISTERED | control.number
        case _:
            return control.number


def code_of_parameter(parameter: Parameter) -> int:
    """The code of a parameter that was selected on the wire."""
    mark = NON_REGISTERED if parameter.kind is ParameterKind.NON_REGISTERED else REGISTERED
    return mark | parameter.number


def whole(code: Code) -> Code:
    """A code without the mark of the fine half."""
    return code & ~FINE


def number_of(code: int) -> int:
    """The control number that carries a code; a parameter has none, and is given back as it is."""
    return whole(code) + FINE_ABOVE if code & FINE and code < NON_REGISTERED else code


def message_of(code: int) -> tuple[ControlMessage, int]:
    """How a control is reached, and its number; the inverse of `code_of`, pairs told as plain."""
    number = code & (FINE - 1)
    if code & NON_REGISTERED:
        return ControlMessage.NRPN, number
    return (ControlMessage.RPN if code & REGISTERED else ControlMessage.CC), number


def ends_of(control: Control, heel: int, toe: int) -> Iterator[tuple[int, int, int]]:
    """The travel of each half of a control: its code, and the values that it begins and ends at."""
    code = code_of(control)
    is_pair = control.message is ControlMessage.CC14
    if control.message is ControlMessage.CC or (control.high <= 127 and not is_pair):
        yield code, heel, toe
        return
    yield code, heel >> 7, toe >> 7
    yield code | FINE, heel & 0x7F, toe & 0x7F


@dataclass(slots=True)
class Series:
    """All values of one half of a control in the order they came, and the messages behind them."""

    values: list[int] = field(default_factory=list)
    raw: list[bytes] = field(default_factory=list)


def series_of(
    messages: Iterable[bytes], *, pairs: frozenset[tuple[int, int]], moved: frozenset[int]
) -> dict[tuple[int, int], Series]:
    """The control changes of one line by channel (0 to 15) and code, in the order of their first.

    `pairs` are channels and coarse numbers of 14-bit pairs. On the channels `moved` selectors and
    data entry are taken as parameters; what is left of one that came broken is left out.
    """
    found: dict[tuple[int, int], Series] = {}
    selections: dict[int, Selection] = {}
    for data in messages:
        if data[0] & 0xF0 != CONTROL_STATUS:
            continue
        channel, number, value = data[0] & 0x0F, data[1], data[2]
        code: int | None = number
        if channel in moved and number in SELECTORS | ENTRIES:
            before = selections.get(channel, NOTHING_SELECTED)
            after, entered = hear(before, ControlChange(channel + 1, number, value))
            selections[channel] = after
            code = None
            if entered is not None:
                fine = FINE if entered.entry is Entry.FINE else 0
                code = code_of_parameter(entered.parameter) | fine
        elif (channel, number - FINE_ABOVE) in pairs:
            code = number - FINE_ABOVE | FINE
        if code is not None:
            series = found.setdefault((channel, code), Series())
            series.values.append(value)
            series.raw.append(data)
    return found
