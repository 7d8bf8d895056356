"""Registered and non-registered parameters: chosen by two controls, set by data entry.

Sources: MIDI 1.0 Detailed Specification 4.2.1, page 17; the control change and RPN tables of the
MIDI Association; RP-018 for increment and decrement. Registered and non-registered parameters
share one pair of data-entry controls, so whichever was selected last is the one that is set.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import reduce
from typing import Final, assert_never

from thruline.base.errors import CannotUse
from thruline.midi.message import ControlChange, check_number
from thruline.midi.numbers import after_coarse, after_fine, pair_to_value, value_to_pair
from thruline.midi.specs import DATA_MAX, PAIR_MAX

ENTRY_COARSE: Final = 6
ENTRY_FINE: Final = 38
INCREMENT: Final = 96
DECREMENT: Final = 97
NULL: Final = PAIR_MAX
"""Selects nothing: 7F 7F. Data entry is ignored until something is selected again."""


class ParameterKind(StrEnum):
    """Whose numbers they are."""

    REGISTERED = "registered"
    """The standard's own."""
    NON_REGISTERED = "non-registered"
    """Each maker's own."""


@dataclass(frozen=True, slots=True)
class Parameter:
    """One parameter, by its kind and its 14-bit number, 0 to 16382."""

    kind: ParameterKind
    number: int

    def __post_init__(self) -> None:
        check_number(f"{self.kind} parameter", self.number, high=NULL - 1)


_SELECTORS: Final = {
    ParameterKind.REGISTERED: (101, 100),
    ParameterKind.NON_REGISTERED: (99, 98),
}
"""The controls that carry the coarse and the fine half of a parameter's number."""

_STEPS_COARSE: Final = frozenset(
    Parameter(ParameterKind.REGISTERED, number) for number in (2, 3, 4)
)
"""Coarse tuning, tuning program and tuning bank step in their coarse half (RP-018)."""


def parameter_to_controls(
    channel: int, parameter: Parameter, *, value: int, fine: bool = True, null: bool = True
) -> tuple[ControlChange, ...]:
    """The messages that set a parameter to a 14-bit value, in the order of sending.

    Both selectors every time; without `fine` only the coarse half, for which the fine half of
    `value` must be 0; with `null` the selection is undone, so that stray data entry harms nothing.
    Raises CannotUse for numbers that no message can carry.
    """
    coarse, rest = value_to_pair(value)
    if rest and not fine:
        raise CannotUse(
            f"value {value} cannot be sent by its coarse half alone; the nearest below is "
            f"{after_coarse(coarse)}"
        )
    entry = [ControlChange(channel, ENTRY_COARSE, coarse)]
    if fine:
        entry.append(ControlChange(channel, ENTRY_FINE, rest))
    undo = _selecting(channel, parameter.kind, NULL) if null else ()
    return (*_selecting(channel, parameter.kind, parameter.number), *entry, *undo)


def controls_to_parameter(messages: Sequence[ControlChange]) -> tuple[int, Parameter, int]:
    """A whole sequence as (channel, parameter, value); the inverse of `parameter_to_controls`.

    Raises CannotUse when the messages are not the setting of one parameter on one channel.
    """
    selection = NOTHING_SELECTED
    entries: list[Entered] = []
    for message in messages:
        selection, entered = hear(selection, message)
        if entered is not None:
            entries.append(entered)
    channels = {message.channel for message in messages}
    parameters = {entered.parameter for entered in entries}
    if len(channels) != 1 or len(parameters) != 1 or entries[0].entry is not Entry.COARSE:
        raise CannotUse(
            "these control changes do not set one parameter on one channel: that takes its two "
            "selectors (101 and 100, or 99 and 98), then control 6, then perhaps control 38"
        )
    return channels.pop(), parameters.pop(), reduce(held_after, entries, 0)


@dataclass(frozen=True, slots=True)
class Selection:
    """Which parameter a receiver has selected on a channel; None where a half was not heard yet.

    A selector of the other kind begins a new selection, with nothing kept from the old one.
    """

    kind: ParameterKind = ParameterKind.REGISTERED
    coarse: int | None = None
    fine: int | None = None

    @property
    def parameter(self) -> Parameter | None:
        """What data entry reaches now; None for nothing."""
        if self.coarse is None or self.fine is None:
            return None
        number = pair_to_value(self.coarse, self.fine)
        return None if number == NULL else Parameter(self.kind, number)


NOTHING_SELECTED: Final = Selection()
"""A receiver at power-up."""


class Entry(StrEnum):
    """What data entry does to the selected parameter."""

    COARSE = "coarse"
    """Its coarse half takes a value, and its fine half becomes 0."""
    FINE = "fine"
    """Its fine half takes a value."""
    UP = "up"
    """One step up."""
    DOWN = "down"
    """One step down."""


_ENTRIES: Final = {
    ENTRY_COARSE: Entry.COARSE,
    ENTRY_FINE: Entry.FINE,
    INCREMENT: Entry.UP,
    DECREMENT: Entry.DOWN,
}


@dataclass(frozen=True, slots=True)
class Entered:
    """Data entry that reached a parameter; `data` means nothing for a step."""

    parameter: Parameter
    entry: Entry
    data: int


def hear(selection: Selection, message: ControlChange) -> tuple[Selection, Entered | None]:
    """What a receiver makes of one more control change on the channel of this selection."""
    entry = _ENTRIES.get(message.control)
    if entry is not None:
        parameter = selection.parameter
        if parameter is None:
            return selection, None
        return selection, Entered(parameter, entry, message.value)
    for kind, (coarse, fine) in _SELECTORS.items():
        if message.control in (coarse, fine):
            kept = selection if selection.kind is kind else Selection(kind)
            if message.control == coarse:
                return Selection(kind, message.value, kept.fine), None
            return Selection(kind, kept.coarse, message.value), None
    return selection, None


def held_after(held: int, entered: Entered) -> int:
    """The 14-bit value of a parameter that held `held`, once `entered` arrived.

    Steps are of 1 in the half that RP-018 names and stop at both ends; a unit with steps of its
    own says so in its chart.
    """
    match entered.entry:
        case Entry.COARSE:
            return after_coarse(entered.data)
        case Entry.FINE:
            return after_fine(held, entered.data)
        case Entry.UP:
            return min(held + _step(entered.parameter), PAIR_MAX)
        case Entry.DOWN:
            return max(held - _step(entered.parameter), 0)
        case unknown:
            assert_never(unknown)


def _step(parameter: Parameter) -> int:
    return DATA_MAX + 1 if parameter in _STEPS_COARSE else 1


def _selecting(
    channel: int, kind: ParameterKind, number: int
) -> tuple[ControlChange, ControlChange]:
    """The two selectors, coarse first."""
    controls, halves = _SELECTORS[kind], value_to_pair(number)
    return (
        ControlChange(channel, controls[0], halves[0]),
        ControlChange(channel, controls[1], halves[1]),
    )
