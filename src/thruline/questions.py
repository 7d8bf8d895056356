"""The questions that other programs may ask, each one function.

    >>> import thruline
    >>> board = thruline.load("board.rig.toml")
    >>> thruline.prove(board).is_clean
    False

They raise `CannotUse` for what cannot be used (a document with problems, an unknown preset) and
`WorldFailed` where the world does not do its part (an unreadable file, a full disk). What is wrong
with a rig is never an error: it is a finding, and a value.
"""

import os
from collections.abc import Mapping
from typing import TypeAlias

from thruline.app.compare import WorkOrder, compare
from thruline.app.load import Opened, open_again, open_chart
from thruline.app.locate import field_for, with_symptoms
from thruline.app.mend import offers, state_of
from thruline.app.plan_cables import CableSet, Stock, plan_rig_cables
from thruline.app.plan_channels import ChannelPlan, plan_rig_channels
from thruline.app.plan_power import OutletPlan, plan_rig_power
from thruline.app.prove import prove_rig
from thruline.app.trace import Trace
from thruline.app.trace import trace as trace_preset
from thruline.document.change import apply_to
from thruline.find.search import Search
from thruline.find.standing import Standing, stand
from thruline.mend.weigh import Weighed
from thruline.plan.cables import Wish
from thruline.proof.case import Case
from thruline.proof.engine import Proof
from thruline.proof.finding import Mend
from thruline.rig.chart import Chart
from thruline.wiring import open_chart_sheet, open_file, write_document

RigOrFile: TypeAlias = "Opened | str | os.PathLike[str]"
"""A rig that was loaded, or the file of its document."""


def load(file: str | os.PathLike[str]) -> Opened:
    """Read a rig document, and the charts that it names.

    A chart is taken from the folder `charts` beside it or, failing that, from the workshop or the
    samples. Raises CannotUse with everything that is wrong with the document, each with its row.

        >>> board = thruline.load("board.rig.toml")
        >>> board.rig.units["delay"].channel
        3
    """
    return open_file(os.fspath(file))


def prove(rig: RigOrFile) -> Proof:
    """Does every message arrive, is it understood, in time, and is every preset always the same?

    All presets, all changes from one to another, every place of every pedal. Findings are sorted:
    faults, then risks, then advice; `untold` is what cannot be told for want of a fact.

        >>> proof = thruline.prove("board.rig.toml")
        >>> proof.count(thruline.Severity.FAULT) > 0
        True
        >>> proof.findings[0].rule
        'document.plug-does-not-fit'
    """
    return prove_rig(_opened(rig))[1]


def mends(rig: RigOrFile) -> tuple[Weighed, ...]:
    """Every mend of every finding, tried: what would be gone with it, and what would be new.

    >>> tried = thruline.mends("board.rig.toml")
    >>> safe = [one for one in tried if one.is_safe]
    >>> safe[0].mend.says
    'Set Pippin Reverb > MIDI OUT to "thru" (hold both switches > OUT)'
    """
    return tuple(offers(state_of(_opened(rig))))


def apply(rig: RigOrFile, mend: Mend) -> Opened:
    """The rig with a mend made: the text of its document is changed, and nothing is written.

    The rig that was given stays as it is, so that going back is keeping it. Raises CannotUse when
    the mend cannot be made.

        >>> better = thruline.apply(board, safe[0].mend)
        >>> better.rig.units["reverb"].settings["midi-out"]
        'thru'
    """
    opened = _opened(rig)
    return open_again(opened, apply_to(opened.document, mend.edits))


def save(rig: Opened, file: str | os.PathLike[str] | None = None) -> None:
    """Write the document of a rig, whole or not at all; into the file it came from by default.

    Comments and order are as they were. Raises CannotUse when there is no folder for it,
    WorldFailed when it cannot be written; what was there is then as it was.

        >>> thruline.save(better, "better.rig.toml")
    """
    write_document(rig.document.file if file is None else os.fspath(file), rig.document.text)


def trace(rig: RigOrFile, preset: int | str, coming_from: int | str | None = None) -> Trace:
    """Follow what a press on a preset sends: each message, where it is when, what becomes of it.

    `coming_from` is the preset before, which decides what is left over. Raises CannotUse when there
    is no such preset.

        >>> found = thruline.trace(board, 3)
        >>> found.messages[0].meaning.says
        'Ashmead Amplifier Switch: program A'
    """
    return trace_preset(Case(_opened(rig).rig), preset, came_from=coming_from)


def locate(rig: RigOrFile, search: Search | None = None, *symptoms: str) -> Standing:
    """Which one thing is wrong: what to try next, or what to mend, after a search so far.

    A search is a plain value: `found.search.after(...)` is the same with one step more, and every
    state can be kept and asked again. `symptoms` are a few words of the trade each. Raises
    CannotUse when a symptom is unclear, or the rig has no controller.

        >>> found = thruline.locate(board)
        >>> found.verdict
        <Verdict.CHECK: 'check'>
        >>> found.check.asks.split()[0]
        'Press'
    """
    begun = Search() if search is None else search
    field = field_for(Case(_opened(rig).rig), place=begun.place)
    return stand(field, with_symptoms(field, begun, symptoms))


def chart(name: str | os.PathLike[str]) -> Chart:
    """The chart of a model of unit, by its id or by its file.

    Raises CannotUse when there is none, naming the nearest, or with everything wrong with it.

        >>> thruline.chart("bramley-delay").controls["mix"].number
        52
    """
    return open_chart(open_chart_sheet(os.fspath(name)))


def plan_channels(rig: RigOrFile, pinned: Mapping[str, int] | None = None) -> ChannelPlan:
    """A channel for each unit that listens, proved to be the best; or the units that clash.

    `pinned` units get the channel that is given. Nothing is changed: `tried.edits` are the edits
    that the plan would make. Raises CannotUse for a unit that cannot be on its channel.

        >>> thruline.plan_channels(board, {"delay": 5}).choices[1].channel
        5
    """
    return plan_rig_channels(_opened(rig), pinned or {})


def plan_power(rig: RigOrFile, *, chains: bool = True, anywhere: bool = False) -> OutletPlan:
    """An outlet for each unit, proved to be the best; what nothing there feeds is `to_buy`.

    Without `chains` no two units share an outlet; `anywhere` lets leads leave the board.

        >>> thruline.plan_power(board).is_whole
        True
    """
    return plan_rig_power(_opened(rig), chains=chains, anywhere=anywhere)


def plan_cables(
    rig: RigOrFile, *, slack: int = 10, remake: bool = False, sold: bool = False
) -> CableSet:
    """The way, the length, the ends and the wiring of each cable, and how to cut them.

    `slack` is in percent; `remake` plans what is long enough as well; `sold` takes lengths that are
    sold.

        >>> thruline.plan_cables(board).cables[0].number
        'M1'
    """
    wish = Wish(slack=slack, remake=remake, sold=sold)
    return plan_rig_cables(_opened(rig), wish, Stock(spools={}, rests={}))


def work_order(old: RigOrFile, new: RigOrFile) -> WorkOrder:
    """What has to be done by hand when one revision becomes another, proved by doing it.

    >>> thruline.work_order(board, board).tasks
    ()
    """
    return compare(_opened(old), _opened(new))


def _opened(rig: RigOrFile) -> Opened:
    return rig if isinstance(rig, Opened) else load(rig)
