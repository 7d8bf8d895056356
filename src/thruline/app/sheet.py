"""Which papers does a technician need? Single sheets, each a paper as data."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from types import MappingProxyType

from thruline.app.book import made_words, paper_book
from thruline.app.book_parts import (
    Material,
    bring_up_paper,
    cables_paper,
    faults_paper,
    power_paper,
    programming_paper,
    proof_part,
    setlist_paper,
    settings_paper,
)
from thruline.app.cable_labels import cable_labels
from thruline.app.load import Opened
from thruline.app.mend import state_of
from thruline.papers.book import Book, Part, part_of
from thruline.papers.paper import Paper, Section, table_of
from thruline.papers.proof_words import unproved_words


def sheet_material(opened: Opened, *, date: str = "") -> Material:
    """What the sheets of a rig are made of; `date` is when, as the proof shall say it."""
    return Material(state_of(opened), made_words(date))


def sheet_of(it: Material, which: str) -> Paper:
    """A sheet by its name; what the proof found is said below the title, if it found anything."""
    paper = SHEETS[which](it)
    unproved = unproved_words(it.state.proof)
    if not unproved or which == "proof":
        return paper
    return replace(paper, about=(*paper.about, unproved))


def sheet_book(it: Material, paper: Paper, *, which: str, date: str) -> Book:
    """A sheet as it is printed: the paper that was made, or labels to be cut out."""
    if which == "labels":
        title = f"Labels: {it.opened.rig.name}"
        part = Part(name=which, title=title, blocks=(cable_labels(it.cables),))
    else:
        part = part_of(which, paper)
    return paper_book(part, date=date)


def _labels(it: Material) -> Paper:
    rows = [
        (one.number, one.here, one.there, one.plug, "" if one.length is None else str(one.length))
        for one in cable_labels(it.cables).labels
    ]
    table = table_of(("no", "this end", "other end", "plug", "length"), rows)
    return Paper(
        title=f"Labels: {it.opened.rig.name}",
        about=("Two labels a cable; lengths in mm.",),
        sections=(Section(title="Labels", table=table),),
    )


SHEETS: Mapping[str, Callable[[Material], Paper]] = MappingProxyType(
    {
        "bring-up": bring_up_paper,
        "faults": faults_paper,
        "settings": settings_paper,
        "programming": programming_paper,
        "cables": cables_paper,
        "labels": _labels,
        "power": power_paper,
        "setlist": setlist_paper,
        "proof": proof_part,
    }
)
"""Every sheet by its name, in the order in which the book has them."""
