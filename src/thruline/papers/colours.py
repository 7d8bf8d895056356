"""The colours of every page and drawing. None means anything alone: a shape or a word goes along.

Every text colour has a contrast of at least 4.5 to 1 on its ground.
"""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from types import MappingProxyType


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """One set of colours, as CSS writes them.

    `lines` are used in this order and then again. `fault` is for faults only, `proved` for what is
    proved right only; `risk` and `advice` mark findings.
    """

    ground: str
    card: str
    ink: str
    quiet: str
    rule: str
    lines: tuple[str, ...]
    fault: str
    risk: str
    advice: str
    proved: str

    def line(self, place: int) -> str:
        """The colour of the line with this number, from 0."""
        return self.lines[place % len(self.lines)]


LIGHT = Palette(
    ground="#F7F4ED",
    card="#FFFDF8",
    ink="#23211C",
    quiet="#655F52",
    rule="#CFC8B8",
    lines=("#0B6E69", "#B4481E", "#8A6A00", "#3E4C8A", "#6B3F69"),
    fault="#B00020",
    risk="#7A5D00",
    advice="#3E4C8A",
    proved="#2E6B34",
)
"""Warm paper."""

DARK = Palette(
    ground="#000000",
    card="#151412",
    ink="#FFFFFF",
    quiet="#B5AFA2",
    rule="#4A463D",
    lines=("#4FC1BA", "#F08A5D", "#D9B43B", "#98A8F0", "#D79BD4"),
    fault="#FF7A85",
    risk="#E0B83C",
    advice="#98A8F0",
    proved="#7CCB84",
)
"""A dark stage."""

PRINT = Palette(
    ground="#FFFFFF",
    card="#FFFFFF",
    ink="#23211C",
    quiet="#4E493F",
    rule="#B9B3A6",
    lines=("#0B4F4B", "#A03D16", "#6E5500", "#33407A", "#5E3459"),
    fault="#A0001C",
    risk="#5E4800",
    advice="#33407A",
    proved="#25582B",
)
"""White paper, in colour or in grey."""

_PLAIN = tuple(one.name for one in fields(Palette) if one.name != "lines")


def variables(palette: Palette) -> Mapping[str, str]:
    """The palette as CSS custom properties: `--ink`, `--line-0` and so on."""
    plain = {f"--{name}": getattr(palette, name) for name in _PLAIN}
    lines = {f"--line-{place}": colour for place, colour in enumerate(palette.lines)}
    return MappingProxyType(plain | lines)


THEMED = Palette(
    **{name: f"var(--{name})" for name in _PLAIN},
    lines=tuple(f"var(--line-{place})" for place in range(len(LIGHT.lines))),
)
"""Whatever the page around a drawing has set these variables to."""
