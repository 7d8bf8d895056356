"""The bring-up card: the first power-up step by step, each with what must be seen before the next.

Power first, then one unit at a time in the order in which messages reach them, the sound last.
"""

from collections.abc import Iterator, Sequence

from thruline.papers.paper import Paper, Section, See, table_of
from thruline.papers.settings_sheet import BOX, bring_up_order, first_test
from thruline.plan.cable_kinds import AUDIO
from thruline.plan.cables import CablePlan
from thruline.proof.board import Board
from thruline.proof.power_leads import CAUTION, volts
from thruline.rig.power import Outlet
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig

HEAD = ("", "no", "do", "you must see", "its settings")
ABOUT = (
    (
        "One step after the other, and a tick for each. Where something else is seen, stop there, "
        "take the last lead out again, and go to the fault-finding card."
    ),
)
QUIET = (
    "Begin with the amplifier off and every lead out. Sound comes last, at the lowest level, with "
    "hearing protected."
)
NOTHING = "nothing gets warm, nothing smells, and what was seen before is still so"


def bring_up_card(board: Board, plans: Sequence[CablePlan]) -> Paper:
    """The card of a rig; `plans` are its cables with their numbers."""
    rig = board.rig
    rows = [*_supplies(board), *_units(board, plans)]
    rows += [*_sound(rig, plans), *_presets(rig)]
    counted = [(BOX, str(number), *row) for number, row in enumerate(rows, 1)]
    return Paper(
        title=f"Bring-up card: {rig.name}",
        about=(*ABOUT, f"{CAUTION} {QUIET}"),
        sections=(Section(title="Steps", table=table_of(HEAD, counted)),),
    )


def _supplies(board: Board) -> Iterator[tuple[str, str, str]]:
    for unit in bring_up_order(board):
        if unit.chart.outlets:
            yield (
                f"Mains to {unit.name}, with nothing in its outlets. Measure each of them.",
                "; ".join(outlet_words(unit, one) for one in unit.chart.outlets.values()),
                _settings(unit),
            )


def outlet_words(unit: Unit, outlet: Outlet) -> str:
    """What an outlet must show on a meter."""
    socket = unit.chart.sockets.get(outlet.socket)
    name = (socket.marked if socket else "") or outlet.socket
    kind = (
        "AC" if outlet.ac else f"DC, {(outlet.polarity or 'polarity not told').replace('-', ' ')}"
    )
    return f"{name}: {volts(outlet.millivolts)} {kind}"


def _units(board: Board, plans: Sequence[CablePlan]) -> Iterator[tuple[str, str, str]]:
    done = {one.id for one in board.rig.units.values() if one.chart.outlets}
    plugged: set[str] = set()
    for unit in bring_up_order(board):
        if unit.id in done:
            continue
        done.add(unit.id)
        leads = []
        for plan in plans:
            ends = {plan.cable.start.unit, plan.cable.stop.unit}
            if plan.number not in plugged and ends <= done and plan.kind is not AUDIO:
                plugged.add(plan.number)
                leads.append(_lead(board.rig, plan))
        what = "; ".join(leads) if leads else "no lead of this list"
        yield f"{unit.name}: {what}.", _seen(board.rig, unit), _settings(unit)


def _lead(rig: Rig, plan: CablePlan) -> str:
    start, stop = plan.cable.start, plan.cable.stop
    return f"{plan.number} from {_jack(rig, start.unit, start.socket)} to " + _jack(
        rig, stop.unit, stop.socket
    )


def _jack(rig: Rig, unit: str, socket: str) -> str:
    found = rig.units[unit]
    return f"{found.name} {found.chart.sockets[socket].marked or socket}"


def _seen(rig: Rig, unit: Unit) -> str:
    """What the first preset that wants something of it makes it show."""
    test = next(first_test(rig, unit), "")
    return test[0].upper() + test[1:].rstrip(".") if test else NOTHING[0].upper() + NOTHING[1:]


def _settings(unit: Unit) -> str:
    has = bool(unit.chart.settings) or unit.chart.channel is not None
    return See("settings sheet", f"settings:{unit.id}") if has else ""


def _sound(rig: Rig, plans: Sequence[CablePlan]) -> Iterator[tuple[str, str, str]]:
    leads = [_lead(rig, plan) for plan in plans if plan.kind is AUDIO]
    if leads:
        yield (
            f"The sound, with the amplifier off: {'; '.join(leads)}.",
            "Every lead is in; the amplifier on at its lowest level, and sound from the instrument",
            "",
        )


def _presets(rig: Rig) -> Iterator[tuple[str, str, str]]:
    for preset in rig.presets:
        shows = [
            f"{rig.units[goal.unit].name} {goal.program.label}"
            for goal in preset.goals
            if goal.program is not None and goal.unit in rig.units
        ]
        rows = See("programming sheet", f"preset:{preset.number}")
        yield f"Press {preset.title}.", ", ".join(shows) or "What its rows say", rows
