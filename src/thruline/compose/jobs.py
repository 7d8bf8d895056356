"""What is to be ordered on one wire, what the controller can do about it, and what comes out.

All times are whole microseconds, counted from the start of the sending. Nothing here knows a rig:
a job is a unit's share of one preset, told as wire times.
"""

from dataclasses import dataclass, field
from enum import StrEnum
from typing import NamedTuple


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Control messages of one unit that are sent in one go.

    `full_us` is its wire time with its status byte, `kept_us` without it, as when it follows a
    block of the same job (running status, MIDI 1.0 Detailed Specification). It may start no earlier
    than `lag_us` after the unit's message before it, if any.
    """

    full_us: int
    kept_us: int
    lag_us: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """What one unit needs.

    The head (bank select and program change) takes `head_us` in one go, 0 when the unit gets no
    program. Controls are heeded `lag_us` after its end. The unit is right `tail_us` after its last
    message, and never before `load_us + tail_us` after its head.
    """

    head_us: int = 0
    lag_us: int = 0
    load_us: int = 0
    blocks: tuple[Block, ...] = ()
    tail_us: int = 0
    weight: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Pauses:
    """Pauses that the controller can put between messages.

    Each is a whole number of steps, `longest_us` at most (None: no limit). Several may stand in a
    row; each counts towards `most` (None: as many as needed).
    """

    step_us: int = 1
    longest_us: int | None = None
    most: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Means:
    """What the controller can do with a preset's messages.

    Without `reorder` they leave in the order of the jobs, each its head and then its blocks. With
    `programs_first` all heads leave first, in the order of the jobs, and then the blocks. Without
    `pauses` the wire never idles. `idle_keeps_status` says whether running status survives an idle
    wire.
    """

    reorder: bool = True
    programs_first: bool = False
    pauses: Pauses | None = field(default_factory=Pauses)
    idle_keeps_status: bool = True


class Effort(StrEnum):
    """How long to look for a better order."""

    QUICK = "quick"
    """The longest-tail rule, its bound, and a short search when they differ."""
    FULL = "full"
    """Searches with restarts, for the last unit's time and then for the weighted sum."""
    PROVE = "prove"
    """As FULL, then whatever it takes, within limits, to prove that nothing is faster."""


class Proof(StrEnum):
    """Why nothing can be faster."""

    BOUND_MET = "bound met"
    """The order ends exactly at a time below which no order can end."""
    SEARCHED_WHOLE = "searched whole"
    """Every order was tried or shown to be no better."""
    SOLVER = "solver"
    """A constraint solver found no faster order possible."""
    ONLY_ORDER = "only order"
    """The controller leaves no choice."""
    NOT_PROVED = "not proved"
    """Something between the bound and this order may exist."""


class Slot(NamedTuple):
    """One piece on the wire: the head (`block` None) or a block of a job, by index.

    The controller pauses `pause_us` before it starts. (A tuple, because a proof of 128 presets
    makes 10,000 of them, and a tuple is made three times as fast as a frozen dataclass.)
    """

    job: int
    block: int | None
    start_us: int
    end_us: int
    pause_us: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Ordered:
    """An order on the wire and how good it is.

    `lost` names the blocks that reach their unit before it listens; every time here counts them as
    if they were heeded. No order that loses as few blocks ends before `bound_us`; `proof` says why
    this one is as good, or that it is not known. `sum_proved` is true when no order that ends as
    early has a lower weighted sum. `solver_missing`: a proof was asked for that only the solver
    could give, and it is not installed.
    """

    slots: tuple[Slot, ...]
    lost: tuple[Slot, ...]
    right_us: tuple[int, ...]
    """When each job's unit is right, by job."""
    makespan_us: int
    """When the last unit is right."""
    weighted_us: int
    """The sum over the jobs of weight times `right_us`."""
    bound_us: int
    proof: Proof
    sum_proved: bool = False
    solver_missing: bool = False

    @property
    def proved(self) -> bool:
        """Whether nothing that loses as few blocks can be faster."""
        return self.proof is not Proof.NOT_PROVED

    @property
    def gap(self) -> float:
        """How much of this time might be saved at the very most, as a share; 0 when proved."""
        if self.proved or self.makespan_us == 0:
            return 0.0
        return (self.makespan_us - self.bound_us) / self.makespan_us
