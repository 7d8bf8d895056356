"""Rigs for tests of this stage: one link between two sockets, and networks made by chance."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from hypothesis import strategies as st

from tests.rigs import (
    Document,
    make_cable,
    make_chart,
    make_rig,
    make_unit,
    midi_in,
    midi_out,
)
from thruline.path.links import Link, read_links
from thruline.rig.whole import Rig

WAYS = ("thru-wire", "thru-soft", "merge", "own", "off")
KINDS = ("program", "control", "note", "clock", "real-time", "system-exclusive", "own-channel")
CABLES = {
    "good": "straight",
    "broken": "crossed",
    # The source wire is missing: inputs that are not isolated may still read the voltage.
    "doubted": {"5": "5", "2": "2"},
}


def link_between(out: Document, into: Document, ends: str, **cable: Any) -> Link:
    """The first link of a rig in which one cable joins a socket of `feet` with one of `pre`."""
    charts = [make_chart("sender", [out]), make_chart("taker", [into])]
    units = [make_unit("feet", "sender"), make_unit("pre", "taker")]
    between = make_cable(f"feet.{out['id']}", f"pre.{into['id']}", ends, **cable)
    return read_links(make_rig(units, [between], charts))[0]


@dataclass(frozen=True)
class Board:
    """A network made by chance. Units have numbers; `cables` are (unit, output, unit, input, how).

    `outs` has for each unit what its outputs do: the ways that each may have (several: it cannot be
    told which), the inputs that it passes on, and what it holds back.
    """

    ins: tuple[int, ...]
    outs: tuple[tuple[tuple[tuple[str, ...], tuple[int, ...], tuple[str, ...]], ...], ...]
    cables: tuple[tuple[int, int, int, int, str], ...]

    def rig(self, name: Callable[[int], str] = "unit-{}".format) -> Rig:
        """The rig, with units called `unit-0`, `unit-1`, ... or by a name of one's own."""
        units = [make_unit(name(n), f"box-{n}", channel=n + 1) for n in self.units]
        cables = [
            make_cable(f"{name(a)}.out-{x}", f"{name(b)}.in-{y}", wiring=CABLES[how])
            for a, x, b, y, how in self.cables
        ]
        return make_rig(units, cables, [self._chart(number) for number in self.units])

    @property
    def units(self) -> range:
        """Their numbers."""
        return range(len(self.ins))

    def _chart(self, number: int) -> Document:
        sockets = [midi_in(f"in-{y}", isolated=False) for y in range(self.ins[number])]
        sockets += [midi_out(f"out-{x}") for x in range(len(self.outs[number]))]
        output = [
            {
                "socket": f"out-{x}",
                "ways": list(ways),
                "from": [f"in-{y}" for y in sources],
                "blocks": list(blocks),
            }
            for x, (ways, sources, blocks) in enumerate(self.outs[number])
        ]
        return make_chart(f"box-{number}", sockets, output=output)


@dataclass(frozen=True)
class Flood:
    """The plain way to tell who hears whom on a board: messages spread until nothing is new.

    `sure` counts only what surely passes, else all that may. Without a status filters are not
    looked at. Written from the rows of the board, apart from the code that it tests.
    """

    board: Board
    status: int | None
    sure: bool

    def carries(self, how: str) -> bool:
        return how == "good" or (how == "doubted" and not self.sure)

    def _all_or_any(self, answers) -> bool:
        return all(answers) if self.sure else any(answers)

    def sends(self, unit: int, out: int) -> bool:
        ways, _, _ = self.board.outs[unit][out]
        return self._all_or_any(way in ("own", "merge") for way in ways)

    def passes(self, unit: int, out: int, into: int) -> bool:
        ways, sources, blocks = self.board.outs[unit][out]
        held = self.status is not None and _blocked(blocks, self.status, channel=unit + 1)
        one_by_one = (
            way == "thru-wire" or (way in ("thru-soft", "merge") and not held) for way in ways
        )
        return into in sources and self._all_or_any(one_by_one)

    def reached(self, source: int) -> set[int]:
        """The units that hear what a unit sends of its own."""
        leaving = {
            (source, out) for out in range(len(self.board.outs[source])) if self.sends(source, out)
        }
        arrived: set[tuple[int, int]] = set()
        while True:
            arrived = {
                (b, y)
                for a, x, b, y, how in self.board.cables
                if (a, x) in leaving and self.carries(how)
            }
            more = leaving | {
                (b, x)
                for b, y in arrived
                for x in range(len(self.board.outs[b]))
                if self.passes(b, x, y)
            }
            if more == leaving:
                return {b for b, _ in arrived}
            leaving = more

    def goes_round(self) -> bool:
        """Whether messages can come back to an output that they have left, looking depth first."""
        after = {
            (a, x): [(b, z) for z in range(len(self.board.outs[b])) if self.passes(b, z, y)]
            for a, x, b, y, how in self.board.cables
            if self.carries(how)
        }
        done: set[tuple[int, int]] = set()

        def leads_back(output, way) -> bool:
            if output in way:
                return True
            if output in done:
                return False
            done.add(output)
            return any(leads_back(later, [*way, output]) for later in after.get(output, ()))

        return any(leads_back(output, []) for output in after)


def _blocked(blocks: tuple[str, ...], status: int, *, channel: int) -> bool:
    kinds = {0x80: "note", 0x90: "note", 0xA0: "note", 0xB0: "control", 0xC0: "program"}
    if status < 0xF0:
        on_own = "own-channel" in blocks and status % 16 + 1 == channel
        return on_own or kinds.get(status & 0xF0) in blocks
    if status == 0xF0:
        return "system-exclusive" in blocks
    return "real-time" in blocks or (status == 0xF8 and "clock" in blocks)


@st.composite
def boards(draw, *, most_units: int = 5) -> Board:
    """Boards of up to `most_units`, each with up to two inputs and two outputs."""
    size = draw(st.integers(1, most_units))
    ins = tuple(draw(st.integers(0, 2)) for _ in range(size))
    outs = tuple(
        tuple(draw(_output(ins[number])) for _ in range(draw(st.integers(0, 2))))
        for number in range(size)
    )
    starts = [(a, x) for a in range(size) for x in range(len(outs[a]))]
    stops = [(b, y) for b in range(size) for y in range(ins[b])]
    if not (starts and stops):
        return Board(ins, outs, ())
    how = st.sampled_from(["good", "good", "good", "good", "doubted", "broken"])
    cable = st.tuples(st.sampled_from(starts), st.sampled_from(stops), how)
    drawn = draw(st.lists(cable, max_size=2 * size, unique_by=(lambda c: c[0], lambda c: c[1])))
    return Board(ins, outs, tuple((*start, *stop, state) for start, stop, state in drawn))


def _output(ins: int) -> st.SearchStrategy:
    known = st.sampled_from([(way,) for way in WAYS] + [("thru-soft",), ("merge",)])
    unknown = st.sampled_from([("thru-soft", "own"), ("thru-soft", "merge"), ("merge", "off")])
    sources = st.lists(st.sampled_from(range(ins)), unique=True) if ins else st.just([])
    everything = st.just(tuple(range(ins)))
    blocks = st.lists(st.sampled_from(KINDS), max_size=2, unique=True)
    return st.tuples(
        known | known | unknown,
        (everything | sources.map(sorted)).map(tuple),
        (st.just([]) | blocks).map(tuple),
    )
