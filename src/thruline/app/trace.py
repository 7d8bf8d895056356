"""Where is each message of a preset, and when; and what becomes of it?"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from thruline.app.arriving import Arriving, arriving
from thruline.app.baselines import Baseline, baselines
from thruline.app.load import pick_preset
from thruline.base.errors import CannotUse
from thruline.compose.goals import wanted_of
from thruline.compose.jobs import Effort, Ordered, Proof
from thruline.compose.meaning import Meaning, meanings
from thruline.compose.preset import bounded, plan
from thruline.compose.unsent import NotSent, not_sent
from thruline.midi.decode import decode
from thruline.midi.message import TimedMessage
from thruline.papers.programming_sheet import Entry, entry
from thruline.proof.case import Case
from thruline.proof.working import Worked, work_out
from thruline.rig.preset import Preset
from thruline.rig.unit import Unit, marked
from thruline.timing.falls import Fall
from thruline.timing.picture import Least, Picture, Told, picture_of
from thruline.timing.rows import LoopState
from thruline.timing.run import Run
from thruline.timing.sending import Item, Sending
from thruline.timing.trail import Ground


class Which(StrEnum):
    """Which messages of a preset are followed."""

    PRESS = "press"
    """What a press sends: what the memory holds, or else the best order."""
    STORED = "stored"
    """What the controller's memory holds, as the document says."""
    BEST = "best"
    """What its goals ask for, in the best order, whatever the memory holds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Traced:
    """One message: its number from 1, what it is and says, and where it goes.

    `entry` is what stands for it in the controller, in the numbers of its own screen.
    `leaves_us` is when its first byte leaves the controller, `pause_us` the pause before it.
    `over` are the controller's outputs that it leaves by, as they are marked.
    `falls` are its ways: to the unit it is for, and to others that obey it.
    """

    number: int
    item: Item
    meaning: Meaning
    entry: Entry
    over: tuple[str, ...]
    leaves_us: int
    falls: tuple[Fall, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Best:
    """The best order of the same goals: when all is right, and why nothing can be faster.

    `least_us` is the bound: no order that loses as few messages is right before. None where
    some unit does not hear the controller, so that no time means anything.
    """

    right_us: int
    least_us: int | None
    proof: Proof
    solver_missing: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Trace:
    """One preset followed through the rig.

    `is_stored` tells that the messages are those of the controller's memory. `best` is about the
    best order of its goals, whichever messages are followed; `baselines` are plain orders of them.
    `chooses_output` tells that the controller does not send everything over all its outputs.
    `arriving` are values that depend on where one comes from. `not_sent` is what the preset wants,
    or its memory holds, that no message can be made of.
    """

    rig: str
    preset: Preset
    came_from: Preset | None
    is_stored: bool
    sending: Sending
    picture: Picture
    messages: tuple[Traced, ...]
    best: Best
    baselines: tuple[Baseline, ...]
    arriving: tuple[Arriving, ...]
    not_sent: tuple[NotSent, ...]
    chooses_output: bool

    @property
    def right_us(self) -> int:
        """When everything that these messages change is right."""
        return self.picture.right_us

    @property
    def timed_messages(self) -> tuple[TimedMessage, ...]:
        """Every message with the moment at which it begins to leave the controller, us."""
        return tuple((one.leaves_us, decode(one.item.data)) for one in self.messages)

    @property
    def cannot_be_faster(self) -> bool:
        """Whether it is proved that no order is right sooner."""
        return self.picture.least is not None and self.picture.least.proved

    @property
    def is_obeyed(self) -> bool:
        """Whether every message does what it says, as far as can be told."""
        return not self.picture.failed

    @property
    def is_done(self) -> bool:
        """Whether all that the preset wants is sent, and obeyed as far as can be told."""
        return self.is_obeyed and not self.not_sent


def trace(
    case: Case,
    wanted: int | str,
    *,
    came_from: int | str | None = None,
    which: Which = Which.PRESS,
    effort: Effort = Effort.PROVE,
) -> Trace:
    """Follow the messages of a preset, given by number or name, through the rig, in exact time.

    The messages do not depend on where one comes from; `came_from`, another preset, decides which
    values are found left over. Raises CannotUse when there is no such preset, when the memory is
    asked for and the document does not say what it holds, and when the rig has no controller.
    """
    preset = pick_preset(case.rig, wanted)
    before = None if came_from is None else pick_preset(case.rig, came_from)
    controller = _controller(case)
    sought = _sought(preset, which)
    run = _run(case, sought, effort)
    best = _best(case, sought, run, effort)
    said = meanings(case.rig, sought, run)
    unsent = not_sent(case.rig, sought)
    told = Told(
        title=_title(preset, before),
        labels=[one.says for one in said],
        loops=_loops(case, preset),
        least=_least(best, run),
        not_sent=[f"{one.says}: {one.why}" for one in unsent],
    )
    picture = picture_of(run, ground_of(case, controller), told)
    return Trace(
        rig=case.rig.name,
        preset=preset,
        came_from=before,
        is_stored=sought.stored is not None,
        sending=run.sending,
        picture=picture,
        messages=_traced(case, controller, run, picture=picture, told=said),
        best=best,
        baselines=baselines(case, preset),
        arriving=arriving(case, preset, before),
        not_sent=unsent,
        chooses_output=case.board.routing.chooses,
    )


def _controller(case: Case) -> Unit:
    if case.rig.controller is None:
        raise CannotUse(
            "this rig has no controller that presets could be followed from; "
            'name one of its units in [rig], such as controller = "feet"'
        )
    return case.rig.controller


def _sought(preset: Preset, which: Which) -> Preset:
    """The preset with the messages that are sought: what the memory holds, or none of them."""
    if which is Which.STORED and preset.stored is None:
        raise CannotUse(
            f"the document does not say what the controller holds for preset {preset.title}; "
            "leave --as-stored out, or write its messages down"
        )
    return replace(preset, stored=None) if which is Which.BEST else preset


def _title(preset: Preset, before: Preset | None) -> str:
    coming = f", coming from {before.title}" if before else ""
    return f"press {preset.title}{coming}"


def _run(case: Case, preset: Preset, effort: Effort) -> Run:
    """What these messages do, the order of composed ones looked for as hard as asked."""
    worked = Worked(preset)
    work_out(case.bench(effort), [worked])
    if worked.run is None:
        raise KeyError(preset.title)
    return worked.run


def _best(case: Case, preset: Preset, run: Run, effort: Effort) -> Best:
    """The best order of the preset's goals, and what bounds it.

    The bound is that of a rig whose lines are never busy: queues on the way only add to it.
    """
    board, kept = case.board, case.kept_pieces
    wanted = wanted_of(case.rig, preset, kept.want)
    sender, travels = board.sender, board.roads.travels
    _, jobs = plan(wanted, sender, travels=travels, job=kept.jobs_of(sender))
    free = bounded(wanted, kept.order(jobs, sender, effort), travels=travels)
    mine = run if preset.stored is None else _run(case, replace(preset, stored=None), effort)
    all_hear = all(one.unit.id in board.roads.travels for one in wanted)
    return Best(
        right_us=mine.right_us,
        least_us=_bound(free) if all_hear else None,
        proof=free.proof,
        solver_missing=free.solver_missing,
    )


def _bound(ordered: Ordered) -> int:
    return ordered.makespan_us if ordered.proved else ordered.bound_us


def _least(best: Best, run: Run) -> Least | None:
    """What no order can beat; nothing where that would be above what is shown, or means nothing."""
    if best.least_us is None or best.least_us > run.right_us or not run.sending.items:
        return None
    return Least(best.least_us, proved=best.least_us == run.right_us)


def ground_of(case: Case, controller: Unit) -> Ground:
    """What a sending of the controller goes over."""
    board = case.board
    return Ground(
        wires=board.network,
        hearing=board.hearing,
        roads=board.roads,
        controller=controller,
        hand=board.hand,
    )


def _loops(case: Case, preset: Preset) -> tuple[LoopState, ...]:
    """Every relay loop that a preset puts in or out."""
    audio = case.rig.audio
    found = []
    for goal in preset.goals if audio else ():
        hung = audio.loop_of(goal.unit) if audio else None
        if goal.in_loop is not None and hung is not None:
            owner, loop = hung
            state = "in" if goal.in_loop else "out"
            found.append(LoopState(goal.unit, owner, loop.replace("-", " "), state))
    return tuple(found)


def _leaves_over(case: Case, controller: Unit, item: Item) -> tuple[str, ...]:
    """The outputs that a message leaves by; all of them if it is for no unit in particular."""
    own = [one for one in case.network.outputs_of(controller.id) if one.sends_own is True]
    sockets = case.board.routing.outputs or tuple(one.jack.socket for one in own)
    chosen = case.board.routing.over.get(item.unit or "")
    return tuple(marked(controller, socket) for socket in sockets if chosen in (None, socket))


def _traced(
    case: Case, controller: Unit, run: Run, *, picture: Picture, told: Sequence[Meaning]
) -> tuple[Traced, ...]:
    falls: dict[int, list[Fall]] = {}
    for fall in picture.falls:
        falls.setdefault(fall.message, []).append(fall)
    return tuple(
        Traced(
            number=place + 1,
            item=item,
            meaning=told[place],
            entry=entry(case, item, told[place]),
            over=_leaves_over(case, controller, item),
            leaves_us=picture.messages[place].leaves_us,
            falls=tuple(falls[place]),
        )
        for place, item in enumerate(run.sending.items)
    )
