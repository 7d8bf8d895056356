"""Which papers does a technician need? Single sheets, each a paper as data."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from thruline.app.cable_labels import cable_labels
from thruline.app.load import Opened
from thruline.app.plan_cables import Stock, cable_sections, plan_rig_cables
from thruline.app.plan_power import plan_rig_power, power_sections
from thruline.papers.paper import Paper, Section, table_of
from thruline.papers.programming_sheet import programming_sheet
from thruline.papers.settings_sheet import settings_sheet
from thruline.plan.cables import Wish
from thruline.proof.case import Case


def _settings(opened: Opened) -> Paper:
    return settings_sheet(Case(opened.rig).board)


def _programming(opened: Opened) -> Paper:
    return programming_sheet(opened.rig)


def _cables(opened: Opened) -> Paper:
    found = plan_rig_cables(opened, Wish(), Stock(spools={}, rests={}))
    return Paper(
        title=f"Cable list: {opened.rig.name}",
        about=(f"{found.says}.",),
        sections=tuple(cable_sections(found)),
    )


def _labels(opened: Opened) -> Paper:
    found = plan_rig_cables(opened, Wish(), Stock(spools={}, rests={}))
    rows = [
        (one.number, one.here, one.there, one.plug, "" if one.length is None else str(one.length))
        for one in cable_labels(found).labels
    ]
    table = table_of(("no", "this end", "other end", "plug", "length"), rows)
    return Paper(
        title=f"Labels: {opened.rig.name}",
        about=("Two labels a cable; lengths in mm.",),
        sections=(Section(title="Labels", table=table),),
    )


def _power(opened: Opened) -> Paper:
    found = plan_rig_power(opened)
    return Paper(
        title=f"Power plan: {opened.rig.name}",
        about=(f"{found.says}.",),
        sections=tuple(power_sections(found)),
    )


SHEETS: Mapping[str, Callable[[Opened], Paper]] = MappingProxyType(
    {
        "settings": _settings,
        "programming": _programming,
        "cables": _cables,
        "labels": _labels,
        "power": _power,
    }
)
"""Every sheet by its name."""
