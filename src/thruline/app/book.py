"""The book of a rig: all that a stranger needs to repair the board, and the rig itself inside."""

from collections.abc import Callable, Collection, Iterator
from hashlib import sha256
from typing import TypeAlias

from thruline import __version__
from thruline.app.book_parts import PARTS, Material
from thruline.app.load import Opened
from thruline.app.mend import State
from thruline.base.errors import CannotUse
from thruline.papers.book import Book, Enclosed, Part
from thruline.papers.proof_words import counts_in_words, extent_in_words

RIG_ENDING, CHART_ENDING = ".rig.toml", ".chart.toml"
TOML = "application/toml"
DIGITS = 16
"""Of the fingerprint of a document, enough to tell two revisions apart."""


Step: TypeAlias = Callable[[int, str], None]
"""Told, before each part of a book is made, how many are and what this one is called."""


def _quiet(_count: int, _part: str) -> None:
    """Nobody waits."""


def book_of(state: State, *, date: str, parts: Collection[str] = (), step: Step = _quiet) -> Book:
    """The book of a rig, as it stands; `parts` chooses some, none all of them.

    `date` is when it is made, as it shall be printed. Raises CannotUse when there is no such part.
    """
    return book_from(Material(state, made_words(date)), date=date, parts=parts, step=step)


def made_words(date: str) -> str:
    """When, and by which version."""
    return f"{date}, by thruline {__version__}" if date else f"by thruline {__version__}"


def book_from(
    material: Material, *, date: str, parts: Collection[str] = (), step: Step = _quiet
) -> Book:
    """The same from what was worked out already."""
    for name in parts:
        if name not in PARTS:
            raise CannotUse(f'a book has no part "{name}"; it has {", ".join(PARTS)}')
    state = material.state
    rig = state.opened.rig
    return Book(
        title=rig.name,
        about=" ".join(rig.about.split()),
        date=date,
        version=__version__,
        parts=tuple(_parts(material, parts, step)),
        facts=tuple(_facts(state, material.made)),
        enclosed=tuple(_enclosed(state.opened)),
    )


def paper_book(part: Part, *, date: str) -> Book:
    """A single paper as a book of one part."""
    return Book(title=part.title, about="", date=date, version=__version__, parts=(part,))


def _parts(material: Material, chosen: Collection[str], step: Step) -> Iterator[Part]:
    wanted = [name for name in PARTS if not chosen or name in chosen]
    for count, name in enumerate(wanted):
        step(count, name)
        part = PARTS[name](material)
        if part is not None:
            yield part


def _facts(state: State, made: str) -> Iterator[tuple[str, str]]:
    rig, proof = state.opened.rig, state.proof
    yield "This book", f"made {made}"
    yield "Proof", f"{proof.verdict}: {counts_in_words(proof)}; {extent_in_words(proof)}"
    if rig.controller is not None:
        yield "Controller", rig.controller.name
    yield "Units", str(len(rig.units))
    yield "Songs", str(len(rig.songs))
    digest = sha256(state.opened.document.text.encode()).hexdigest()[:DIGITS]
    yield "Document", f"{document_name(state.opened)}, fingerprint {digest}"


def document_name(opened: Opened) -> str:
    """What the document of a rig is called inside a book: its file without the folder."""
    name = opened.document.file.replace("\\", "/").rpartition("/")[2]
    stem = name.removesuffix(".pdf").removesuffix(".toml").removesuffix(".rig")
    plain = "".join(one if one.isalnum() or one in "-_ ." else "-" for one in stem).strip(" .")
    return f"{plain or 'board'}{RIG_ENDING}"


def _enclosed(opened: Opened) -> Iterator[Enclosed]:
    yield Enclosed(
        name=document_name(opened),
        kind=TOML,
        says="The document of this board",
        content=opened.document.text.encode(),
    )
    for chart_id in sorted(opened.charts):
        yield Enclosed(
            name=f"{chart_id}{CHART_ENDING}",
            kind=TOML,
            says=f"The chart of {opened.charts[chart_id].full_name}",
            content=opened.sheets[chart_id].content,
        )
