"""A few plain questions about a board that was heard, and charts that would fit."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from thruline.app.learn_said import Said, SaidUnit
from thruline.app.load import Opened, open_chart
from thruline.learn.channels import OnChannel, channels_of, fitting
from thruline.learn.learned import Learned
from thruline.rig.chart import Chart
from thruline.workshop.face import Shelf
from thruline.workshop.shelf import find_chart, known_ids

MOST_OFFERED = 4
Ask = Callable[[str], str]
"""Puts a question to the person and gives the answer; empty when there is none."""


def asked(
    learned: Learned, said: Said, board: Opened | None, *, shelves: Sequence[Shelf], ask: Ask
) -> Said:
    """What a person says, with the answers to what is still open.

    An empty answer leaves it open; a chart that is on no shelf is asked for again.
    """
    charts = _charts(shelves)
    known = set(said.units)
    if board is not None:
        known |= {one.sent_on for one in board.rig.units.values() if one.sent_on is not None}
    units = dict(said.units)
    taken = {one.id for one in units.values()}
    for one in channels_of(learned):
        if one.channel not in known:
            found = _unit(one, charts, taken, ask)
            if found is not None:
                units[one.channel] = found
                taken.add(found.id)
    controller = said.controller
    if board is None and controller is None:
        able = [one.id for one in charts.values() if one.abilities is not None]
        question = f"Which chart is the controller's? There are {', '.join(able)}. (Enter: unknown)"
        controller = _chart(question, able, ask)
    names = dict(said.presets)
    for preset in learned.presets:
        if not preset.name and preset.number not in names:
            name = ask(f"What is preset {preset.number} called? (Enter: unknown)")
            if name:
                names[preset.number] = name
    return replace(said, units=units, controller=controller, presets=names)


def _charts(shelves: Sequence[Shelf]) -> Mapping[str, Chart]:
    """Every chart on the shelves."""
    found = {}
    for chart_id in known_ids(shelves):
        sheet = find_chart(shelves, chart_id)
        if sheet is not None:
            found[chart_id] = open_chart(sheet, called=chart_id)
    return found


def _unit(
    heard: OnChannel, charts: Mapping[str, Chart], taken: set[str], ask: Ask
) -> SaidUnit | None:
    fits = [one.id for one in fitting(heard, charts.values())][:MOST_OFFERED]
    offer = f" What comes would fit {', '.join(fits)}." if fits else " No chart here fits it all."
    question = f"{heard.says}.{offer} Which chart has the unit? (Enter: unknown)"
    chart = _chart(question, [*charts], ask)
    if chart is None:
        return None
    usual = chart.rpartition("-")[2]
    while True:
        unit = ask(f"What do you call it, in small letters? (Enter: {usual})") or usual
        if unit not in taken and all(one.isalnum() or one == "-" for one in unit):
            return SaidUnit(unit.lower(), chart)
        usual = f"{usual}-{heard.channel}"


def _chart(question: str, ids: Sequence[str], ask: Ask) -> str | None:
    while answer := ask(question):
        if answer in ids:
            return answer
        question = f'There is no chart "{answer}" here. Which one? (Enter: unknown)'
    return None
