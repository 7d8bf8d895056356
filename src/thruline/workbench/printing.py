"""Prints of a rig made in a process of their own, so that no edit ever waits for one.

What is wished is sent there as text and bytes: the rig is opened and proved once more beside the
workbench, which costs less than the typesetting.
"""

import asyncio
import os
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from functools import lru_cache
from multiprocessing import get_context, parent_process
from multiprocessing.connection import wait
from threading import Thread
from typing import TypeVar

from thruline.app.book import book_from
from thruline.app.book_parts import Material
from thruline.app.load import open_rig
from thruline.app.mend import State
from thruline.app.sheet import sheet_book, sheet_material, sheet_of
from thruline.base.errors import WorldFailed
from thruline.binding import Leaf, leaves_of, pictures_of, typeset
from thruline.workshop.inside import InsideShelf

A = TypeVar("A")
T = TypeVar("T")
SMALL, LARGE = 0.7, 1.6
"""Pixels a point: to tell pages apart, many at a time; to read small print on a large page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What shall be printed: a rig with its charts, on which paper, and which of its papers.

    `sheet` names a single paper; empty, it is the book with these `parts`, none meaning all.
    """

    file: str
    document: str
    charts: tuple[tuple[str, bytes], ...]
    paper: str
    parts: tuple[str, ...]
    sheet: str
    date: str


@dataclass(frozen=True, slots=True)
class Printed:
    """A PDF, and its pages in their order."""

    pdf: bytes
    leaves: tuple[Leaf, ...]


def wish_for(
    state: State, *, paper: str, parts: tuple[str, ...] = (), sheet: str = "", date: str
) -> Wish:
    """The wish for a print of a rig as it stands."""
    opened = state.opened
    return Wish(
        file=opened.document.file,
        document=opened.document.text,
        charts=tuple((one, opened.sheets[one].content) for one in sorted(opened.charts)),
        paper=paper,
        parts=parts,
        sheet=sheet,
        date=date,
    )


def printed(wish: Wish) -> Printed:
    """The print. Raises WorldFailed when the typesetter is not there, or fails."""
    material = _material(wish.file, wish.document, charts=wish.charts, date=wish.date)
    if wish.sheet:
        paper = sheet_of(material, wish.sheet)
        book = sheet_book(material, paper, which=wish.sheet, date=wish.date)
    else:
        book = book_from(material, date=wish.date, parts=wish.parts)
    pdf = typeset(book, paper=wish.paper)
    return Printed(pdf, tuple(leaves_of(pdf)))


@lru_cache(maxsize=1)  # another paper or part of the same rig needs no second proof
def _material(
    file: str, document: str, *, charts: tuple[tuple[str, bytes], ...], date: str
) -> Material:
    shelf = InsideShelf(file, dict(charts))
    return sheet_material(open_rig(document, file=file, shelves=(shelf,)), date=date)


def picture(asked: tuple[bytes, int, float]) -> bytes:
    """A page of a PDF, by its number from 1, as PNG; `asked` ends with pixels a point."""
    pdf, number, scale = asked
    return pictures_of(pdf, [number], scale=scale)[0]


def end_with_the_workbench() -> None:
    """See to it that this process does not outlive the one that began it, however that ends."""
    parent = parent_process()
    if parent is None:
        return

    def watch() -> None:
        wait([parent.sentinel])
        os._exit(0)

    Thread(target=watch, daemon=True).start()


class Worker:
    """One process beside the workbench; it begins with the first print."""

    def __init__(self) -> None:
        self._process: ProcessPoolExecutor | None = None

    async def do(self, what: Callable[[A], T], asked: A) -> T:
        """Have something done there; what it raises is raised here.

        Raises WorldFailed when the process has ended meanwhile; the next wish begins a new one.
        """
        if self._process is None:
            self._process = ProcessPoolExecutor(
                1, mp_context=get_context("spawn"), initializer=end_with_the_workbench
            )
        used = self._process
        try:
            return await asyncio.get_running_loop().run_in_executor(used, what, asked)
        except BrokenProcessPool:
            if self._process is used:
                self._process = None
            raise WorldFailed("the print was broken off from outside; ask for it again") from None

    def close(self) -> None:
        """Let go of the process."""
        if self._process is not None:
            self._process.shutdown(wait=False, cancel_futures=True)
            self._process = None
