"""Every page of the workbench, in the order of the work. A page appears by a line in here."""

from collections.abc import Mapping
from types import MappingProxyType

from thruline.workbench.page import Page
from thruline.workbench.pages import (
    bench,
    board,
    book,
    charts,
    find,
    line,
    presets,
    revisions,
    stage,
    sweeps,
    units,
    whole,
)

PAGES: Mapping[str, Page] = MappingProxyType(
    {
        one.name: one
        for one in (
            line.PAGE,
            presets.PAGE,
            units.PAGE,
            charts.PAGE,
            whole.PAGE,
            sweeps.PAGE,
            board.PAGE,
            bench.PAGE,
            find.PAGE,
            book.PAGE,
            stage.PAGE,
            revisions.PAGE,
        )
    }
)
"""The pages by name."""
