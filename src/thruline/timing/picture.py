"""The timing chart of one sending as data: units down, time across, every message a fall.

Rows stand in the order in which MIDI reaches the units. All times are whole microseconds after the
press, on a line that was idle before; what a sending before this one has left is not looked at.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from thruline.path.stations import stations
from thruline.rig.chart import Meanwhile
from thruline.timing.ending import Mark
from thruline.timing.falls import Fall, falls_of, leaves_us
from thruline.timing.rows import LoopState, Row, rows_of
from thruline.timing.run import Run
from thruline.timing.trail import Ground, Trails, play_sending


@dataclass(frozen=True, slots=True)
class Bar:
    """A span in which the unit of a row is loading, and what that means for control changes."""

    row: int
    start_us: int
    end_us: int
    meanwhile: Meanwhile | None


@dataclass(frozen=True, slots=True)
class Message:
    """A message of the sending: what it says, the unit it is for, and when it leaves."""

    says: str
    unit: str | None
    leaves_us: int


@dataclass(frozen=True, slots=True)
class Least:
    """No order is right before `us`. `proved`: the one shown is as good, so none is better."""

    us: int
    proved: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What the stages above know of a sending, in words.

    `labels` say what each message is for, in the order of the sending; messages without one are
    told by their bytes. `not_sent` are sentences about what is asked for and not among them.
    """

    title: str = ""
    labels: Sequence[str] = ()
    loops: Sequence[LoopState] = ()
    least: Least | None = None
    not_sent: Sequence[str] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """The whole chart.

    `right_us` is when the last unit that anything changes in is right; `least` what no order can
    beat, None when nobody asked. `not_sent` tells what is asked for and nothing was sent for.
    """

    title: str
    rows: tuple[Row, ...]
    messages: tuple[Message, ...]
    falls: tuple[Fall, ...]
    bars: tuple[Bar, ...]
    right_us: int
    least: Least | None = None
    not_sent: tuple[str, ...] = ()

    @property
    def span_us(self) -> int:
        """The last moment at which anything happens; at least 1."""
        ends = [fall.points[-1].us for fall in self.falls]
        ends += [bar.end_us for bar in self.bars]
        ends += [row.right_us for row in self.rows if row.right_us is not None]
        return max([1, self.right_us, *ends])

    @property
    def is_wrong(self) -> bool:
        """Whether anything is not sent, not obeyed, or obeyed by a unit that it is not for."""
        return bool(self.not_sent or self.failed or self.strays)

    @property
    def failed(self) -> tuple[Fall, ...]:
        """The falls of messages that their unit does not obey."""
        return tuple(fall for fall in self.falls if fall.for_it and fall.end.mark is Mark.CROSS)

    @property
    def untold(self) -> tuple[Fall, ...]:
        """The falls of messages of which nobody can tell what becomes of them."""
        return tuple(fall for fall in self.falls if fall.for_it and fall.end.mark is Mark.RING)

    @property
    def strays(self) -> tuple[Fall, ...]:
        """The falls to units that obey what is not meant for them."""
        return tuple(fall for fall in self.falls if not fall.for_it)


def picture_of(run: Run, ground: Ground, told: Told) -> Picture:
    """The timing chart of a run."""
    trails = play_sending(run.sending, ground)
    items = run.sending.items
    meant = {item.unit for item in items if item.unit is not None}
    line = stations(ground.wires, ground.controller, also=meant)
    rows = rows_of(run, ground, line, loops=told.loops)
    row_of = {row.unit: place for place, row in enumerate(rows)}
    return Picture(
        title=told.title,
        rows=rows,
        messages=tuple(_messages(trails, told.labels)),
        falls=falls_of(run, trails, row_of),
        bars=tuple(_bars(run, ground, row_of)),
        right_us=run.right_us,
        least=told.least,
        not_sent=tuple(told.not_sent),
    )


def _messages(trails: Trails, labels: Sequence[str]) -> Iterator[Message]:
    for place, item in enumerate(trails.sending.items):
        says = labels[place] if place < len(labels) else item.data.hex(" ").upper()
        yield Message(says, item.unit, leaves_us(trails, place))


def _bars(run: Run, ground: Ground, row_of: Mapping[str, int]) -> Iterator[Bar]:
    """Where units are loading, row by row; spans of no length are left out."""
    for unit, row in row_of.items():
        reception = run.receptions.get(unit)
        settle = ground.wires.units[unit].chart.settle
        for start, end in reception.loading if reception else ():
            if end > start:
                yield Bar(row, start, end, settle.controls if settle else None)
