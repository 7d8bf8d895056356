"""A rig, and what the stages make of it: worked out when first asked for, and then kept.

Rules ask the case. A case made from an earlier one takes over whatever an edit left unchanged: all
of the board, and all that was worked out for presets that stayed the same. It remembers the last
few boards, so that an edit can be taken back at once.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar, cast

from thruline.compose.goals import loop_control
from thruline.compose.jobs import Effort
from thruline.compose.preset import Composed
from thruline.path.hearing import Hearing
from thruline.path.network import Network
from thruline.proof.board import Board, same_board
from thruline.proof.finding import Result
from thruline.proof.kept import Kept
from thruline.proof.working import Bench, Worked, effort_for, work_out
from thruline.rig.preset import Preset
from thruline.rig.whole import Rig
from thruline.sameness.columns import Layout
from thruline.sameness.effects import effect_table
from thruline.sameness.held import Held, hold
from thruline.sameness.strokes import Strokes, strokes_of
from thruline.timing.run import Run

T = TypeVar("T")
MOST_BOARDS = 3
"""Earlier boards that are remembered: those of an edit or two, and back."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What a case had worked out about its board, as far as it was asked."""

    rig: Rig
    board: Board
    worked: Sequence[Worked]
    held: Held | None
    strokes: tuple[object, Strokes] | None


def asked_by(rig: Rig, preset: Preset) -> Iterator[str]:
    """Ids of units that one preset wants something of over MIDI; some of them again."""
    for goal in preset.goals:
        if goal.program or goal.controls:
            yield goal.unit
        switched = loop_control(rig, goal)
        if switched is not None:
            yield switched[0]


class Case:
    """One rig under proof."""

    def __init__(self, rig: Rig, before: "Case | None" = None) -> None:
        """A case of its own, or one that goes on from an earlier case of a like rig."""
        self.rig = rig
        boards = (before.known, *before.earlier) if before is not None else ()
        like = next((one for one in boards if same_board(one.rig, rig)), None)
        self.earlier: tuple[Known, ...] = tuple(one for one in boards if one is not like)[
            :MOST_BOARDS
        ]
        self.board: Board = like.board if like else Board(rig)
        self.worked: list[Worked] = _again(rig, like)
        self._kept: dict[str, object] = {}
        self.kept_pieces: Kept = before.kept_pieces if before is not None else Kept()
        self.kept_pieces.trim()
        self._held_before = like.held if like else next((one.held for one in boards), None)
        self._strokes_before: tuple[object, Strokes] | None = like.strokes if like else None
        self._place = {
            id(preset): one for preset, one in zip(rig.presets, self.worked, strict=True)
        }
        self._all_worked_out = False

    @cached_property
    def addressed(self) -> frozenset[str]:
        """Ids of units that a preset or a sweep wants something of over MIDI."""
        names = {unit for preset in self.rig.presets for unit in asked_by(self.rig, preset)}
        names.update(move.unit for sweep in self.rig.sweeps for move in sweep.moves)
        if self.rig.controller is not None:
            names.discard(self.rig.controller.id)
        return frozenset(names)

    def kept(self, name: str, make: Callable[[], T]) -> T:
        """Something that several rules need, made once for this case."""
        if name not in self._kept:
            self._kept[name] = make()
        return cast(T, self._kept[name])

    def kept_for(self, preset: Preset, name: str, make: Callable[[], T]) -> T:
        """Something made of one preset on this board, kept as long as neither changes."""
        pieces = self._of(preset).pieces
        if name not in pieces:
            pieces[name] = make()
        return cast(T, pieces[name])

    @property
    def network(self) -> Network:
        """Links and outputs: who can hear whom."""
        return self.board.network

    @property
    def hearing(self) -> Hearing:
        """For every source of messages, who hears it and over which way."""
        return self.board.hearing

    @cached_property
    def with_memory(self) -> tuple[Preset, ...]:
        """Presets of which the document says what the controller's memory holds."""
        return tuple(preset for preset in self.rig.presets if preset.stored is not None)

    def composed(self, preset: Preset) -> Composed:
        """The messages that fulfil the preset's goals, in the best order."""
        self._work_out()
        composed = self._of(preset).composed
        if composed is None:
            raise KeyError(preset.title)
        return composed

    def run(self, preset: Preset) -> Run:
        """What a press of the preset does: what the memory holds, or else what is composed."""
        self._work_out()
        run = self._of(preset).run
        if run is None:
            raise KeyError(preset.title)
        return run

    def runs(self) -> Sequence[Run]:
        """The runs of all presets, in their order."""
        return [self.run(preset) for preset in self.rig.presets]

    @cached_property
    def layout(self) -> Layout:
        """What is followed from preset to preset: controls, programs, banks, loops."""
        return self.kept_pieces.layout(self.rig)

    @cached_property
    def strokes(self) -> Strokes:
        """What the sweeps do to the things that are followed."""
        before = self._strokes_before
        if before is not None and before[0] == _key_of_strokes(self.rig):
            return before[1]
        effect = self.kept_pieces.effect
        return strokes_of(
            self.rig, self.hearing, self.layout, over=self.board.routing.over, effect=effect
        )

    @cached_property
    def held(self) -> Held:
        """What every preset finds in everything that is followed, whatever came before."""
        before = self._held_before
        table = effect_table(
            self.layout,
            self.rig.presets,
            self.runs(),
            strokes=self.strokes,
            before=before.table if before else None,
        )
        return hold(table, before)

    @property
    def known(self) -> Known:
        """What a case of a like rig can take over."""
        strokes = self._strokes_before
        if "strokes" in self.__dict__:
            strokes = (_key_of_strokes(self.rig), self.strokes)
        return Known(
            rig=self.rig,
            board=self.board,
            worked=self.worked,
            held=self.__dict__.get("held", self._held_before),
            strokes=strokes,
        )

    def results_for(self, preset: Preset) -> dict[str, tuple[Result, ...]]:
        """What preset rules found in a preset so far, by rule."""
        return self._of(preset).results

    def bench(self, effort: Effort) -> Bench:
        """What further presets on this board can be worked out with."""
        job = self.kept_pieces.jobs_of(self.board.sender)
        return Bench(self.rig, self.board, self.kept_pieces, effort, job)

    def _of(self, preset: Preset) -> Worked:
        return self._place[id(preset)]

    def _work_out(self) -> None:
        """Compose and play every preset that is not yet worked out, all in one go."""
        if self._all_worked_out:
            return
        self._all_worked_out = True
        open_ones = [one for one in self.worked if one.run is None]
        if open_ones:
            work_out(self.bench(effort_for(self.rig)), open_ones)


def _key_of_strokes(rig: Rig) -> object:
    """What strokes are made from, beside the board."""
    return rig.sweeps, tuple(preset.number for preset in rig.presets)


def _again(rig: Rig, like: Known | None) -> list[Worked]:
    """The presets of a rig, worked out as far as those of one with the same board were."""
    if like is None or effort_for(like.rig) is not effort_for(rig):
        return [Worked(preset) for preset in rig.presets]
    known = {one.preset.address: one for one in like.worked}
    found = [(preset, known.get(preset.address)) for preset in rig.presets]
    return [one if one and one.preset == preset else Worked(preset) for preset, one in found]
