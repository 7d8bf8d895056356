"""What a finding rests on: a closed list of kinds, each a few labelled rows."""

from dataclasses import dataclass
from enum import StrEnum


class EvidenceKind(StrEnum):
    """What the rows of a piece of evidence tell."""

    PATH = "path"
    """The way of a message, hop by hop."""
    BYTES = "bytes"
    """What is sent, byte by byte."""
    TIMES = "times"
    """When things happen."""
    TWO_PRESETS = "two presets"
    """The same thing after coming from two different places."""
    FACTS = "facts"
    """What the charts and the document say."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """Labelled rows, in the order they are read."""

    kind: EvidenceKind
    rows: tuple[tuple[str, str], ...]


def facts(*rows: tuple[str, str]) -> Evidence:
    """What the charts and the document say."""
    return Evidence(EvidenceKind.FACTS, rows)


def times(*rows: tuple[str, str]) -> Evidence:
    """When things happen."""
    return Evidence(EvidenceKind.TIMES, rows)


def sent(*rows: tuple[str, str]) -> Evidence:
    """What is sent, byte by byte."""
    return Evidence(EvidenceKind.BYTES, rows)


def way(*rows: tuple[str, str]) -> Evidence:
    """The way of a message, hop by hop."""
    return Evidence(EvidenceKind.PATH, rows)


def two_presets(*rows: tuple[str, str]) -> Evidence:
    """The same thing after coming from two different places."""
    return Evidence(EvidenceKind.TWO_PRESETS, rows)
