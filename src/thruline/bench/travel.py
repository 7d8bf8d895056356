"""A sweep played by hand: places of a pedal to messages, only where something changes."""

from collections.abc import Iterator, Mapping

from thruline.compose.goals import control_items
from thruline.rig.sweep import POSITIONS, Sweep, values_of
from thruline.rig.whole import Rig
from thruline.timing.sending import Item


class Treadle:
    """A sweep's pedal. A value that a control has already is not sent again."""

    def __init__(self, rig: Rig, sweep: Sweep) -> None:
        self._rig = rig
        self._moves = [(move, values_of(move)) for move in sweep.moves]
        self._sent: dict[str, int] = {}
        self.place = 0

    def move_to(self, place: int) -> list[Item]:
        """The messages that bring all controls to where the pedal now stands (0 heel, 127 toe)."""
        self.place = min(POSITIONS - 1, max(0, place))
        items: list[Item] = []
        for move, values in self._moves:
            unit = self._rig.units[move.unit]
            if not values or unit.sent_on is None:
                continue
            value = values[self.place]
            if self._sent.get(move.entry) != value:
                self._sent[move.entry] = value
                items += control_items(unit, move.control, value)
        return items

    def shown(self) -> Mapping[str, int]:
        """What each move was last sent."""
        return dict(self._sent)


def travel(seconds: float) -> Iterator[tuple[int, int]]:
    """From heel to toe and back in so many seconds: moments in us, and places."""
    steps = [*range(POSITIONS), *range(POSITIONS - 2, -1, -1)]
    for number, place in enumerate(steps):
        yield round(seconds * 1_000_000 * number / (len(steps) - 1)), place
