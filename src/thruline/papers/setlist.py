"""The set on paper: one list of all songs, and sheets to be read from a distance."""

from collections.abc import Sequence
from dataclasses import dataclass

from thruline.papers.book import Large
from thruline.papers.paper import Paper, Section, See, table_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One preset of a song."""

    number: int
    name: str
    about: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One song, or all presets where a rig has no songs; `tempo` in quarter notes a minute."""

    name: str
    tempo: int | None
    steps: tuple[Step, ...]


def setlist(rig: str, pieces: Sequence[Piece]) -> Paper:
    """Every song with its presets in the order in which they come."""
    rows = [
        (
            str(number),
            piece.name,
            "" if piece.tempo is None else str(piece.tempo),
            ", ".join(f"{step.number} {step.name}" for step in piece.steps),
            See("stage sheet", f"song:{number}"),
        )
        for number, piece in enumerate(pieces, 1)
    ]
    return Paper(
        title=f"Setlist: {rig}",
        about=("In the order of the night; tempo in quarter notes a minute.",),
        sections=(
            Section(title="Songs", table=table_of(("", "song", "tempo", "presets", ""), rows)),
        ),
    )


def stage_sheets(pieces: Sequence[Piece]) -> tuple[Large, ...]:
    """A sheet for each song, in large type."""
    return tuple(
        Large(
            title=piece.name,
            beside="" if piece.tempo is None else f"{piece.tempo} a minute",
            rows=tuple((str(step.number), _named(step)) for step in piece.steps),
            about=f"song:{number}",
        )
        for number, piece in enumerate(pieces, 1)
    )


def _named(step: Step) -> str:
    return f"{step.name} ({step.about})" if step.about else step.name
