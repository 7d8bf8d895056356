"""A real pedal: which control message it sends, learned by moving it, and where its two ends are.

A worn pedal no longer gives all values, one put together the other way round gives them backwards,
and one that shakes gives two neighbours by turns. So nothing is taken for granted: what it sent at
the toe and at the heel are its ends.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from thruline.audit.capture import Caught, Note
from thruline.base.errors import CannotUse
from thruline.midi.message import ControlChange
from thruline.rig.sweep import POSITIONS
from thruline.timing.receive import BANK_LSB, BANK_MSB

LEAST_SPAN = 16
"""Between its ends; a pedal with less is broken, or was not moved the whole way."""
SHAKES = 1
"""A pedal that rests gives values that differ by this much."""


@dataclass(frozen=True, slots=True)
class Pedal:
    """A control message and the values that it has at heel and toe."""

    channel: int
    control: int
    heel: int
    toe: int

    @property
    def says(self) -> str:
        """In words."""
        worn = "" if {self.heel, self.toe} == {0, 127} else ", stretched to the whole travel"
        return (
            f"control {self.control} on channel {self.channel}, "
            f"{self.heel} at the heel, {self.toe} at the toe{worn}"
        )

    def place(self, value: int) -> int:
        """Where the pedal stands when it sends a value: 0 at the heel, 127 at the toe."""
        span = self.toe - self.heel
        way = (value - self.heel) * (1 if span > 0 else -1)
        span = abs(span)
        if way <= SHAKES:
            return 0
        if way >= span - SHAKES:
            return POSITIONS - 1
        return (way * (POSITIONS - 1) + span // 2) // span


class Follower:
    """A pedal that is followed: from what comes in, the places it goes to."""

    def __init__(self, pedal: Pedal) -> None:
        self._pedal = pedal
        self._value: int | None = None

    def latest(self, events: Iterable[Caught | Note]) -> int | None:
        """The place it stands at after these; None when it has not moved since.

        Only the last counts: places in between are past, and would only fill the line.
        """
        pedal, found = self._pedal, None
        for event in events:
            message = None if isinstance(event, Note) else event.message
            if not isinstance(message, ControlChange):
                continue
            if (message.channel, message.control) == (pedal.channel, pedal.control):
                found = message.value
        if found is None or found == self._value:
            return None
        moved = self._value is None or abs(found - self._value) > SHAKES
        if not moved and pedal.place(found) not in (0, POSITIONS - 1):
            return None
        self._value = found
        return pedal.place(found)


class Learner:
    """Learns a pedal: it is moved to its toe, then to its heel; what else sends is ignored."""

    def __init__(self) -> None:
        self._values: dict[tuple[int, int], list[int]] = {}
        self._toes: dict[tuple[int, int], int] = {}

    def hear(self, events: Iterable[Caught | Note]) -> None:
        """What came while it was moved."""
        for event in events:
            message = None if isinstance(event, Note) else event.message
            if isinstance(message, ControlChange) and message.control not in (BANK_MSB, BANK_LSB):
                self._values.setdefault((message.channel, message.control), []).append(
                    message.value
                )

    @property
    def moved(self) -> str:
        """What moves most so far, in words; empty when nothing has moved."""
        if not self._values:
            return ""
        (channel, control), values = max(self._values.items(), key=_way)
        return f"control {control} on channel {channel} is at {values[-1]}"

    def at_toe(self) -> None:
        """It stands at its toe now. Raises CannotUse when nothing has come of it."""
        self._refuse_silence()
        self._toes = {key: values[-1] for key, values in self._values.items()}

    def at_heel(self) -> Pedal:
        """It stands at its heel now, so it is known. Raises CannotUse when it has not moved."""
        self._refuse_silence()
        key, values = max(self._values.items(), key=_way)
        if key not in self._toes:
            raise CannotUse("it was not moved to its toe first; learn it again")
        heel, toe = values[-1], self._toes[key]
        if abs(toe - heel) < LEAST_SPAN:
            raise CannotUse(
                f"between heel and toe it only went from {heel} to {toe}; move it the whole way, "
                "or look at its jack: a wiring that does not suit the input leaves a part of it"
            )
        return Pedal(*key, heel=heel, toe=toe)

    def _refuse_silence(self) -> None:
        if not self._values:
            raise CannotUse(
                "nothing has come from the pedal yet: is the port that it comes in on listened to, "
                "and does the controller send it?"
            )


def _way(item: tuple[tuple[int, int], list[int]]) -> int:
    """How far a control was moved altogether."""
    return sum(abs(after - before) for before, after in pairwise(item[1]))


FORM = "1/11:0-127"
"""How a pedal is written: channel / control : value at the heel - value at the toe."""


def pedal_to_text(pedal: Pedal) -> str:
    """A pedal as a person writes it, to be used again."""
    return f"{pedal.channel}/{pedal.control}:{pedal.heel}-{pedal.toe}"


def text_to_pedal(text: str) -> Pedal:
    """The inverse of `pedal_to_text`. Raises CannotUse, with an example, when it is none."""
    head, _, ends = text.partition(":")
    words = [*head.split("/"), *ends.split("-")]
    if len(words) != 4 or not all(word.isascii() and word.isdigit() for word in words):
        raise CannotUse(
            f'"{text}" is no pedal; one is written {FORM} (channel, control, heel, toe)'
        )
    channel, control, heel, toe = (int(word) for word in words)
    if not 1 <= channel <= 16 or max(control, heel, toe) > 127:
        raise CannotUse(f'"{text}": channels are 1 to 16, all else 0 to 127, as in {FORM}')
    if abs(toe - heel) < LEAST_SPAN:
        raise CannotUse(f'"{text}": heel and toe must be at least {LEAST_SPAN} apart')
    return Pedal(channel, control, heel, toe)
