"""The best first checks of a board as a small tree, for people without the tool.

It trusts every answer and asks nothing that needs the computer. What is too unlikely to be worth
ink is left out, and the card says so.
"""

from dataclasses import dataclass

import numpy as np

from thruline.find.field import FIRST, NOTHING, OTHER, Field
from thruline.find.puzzle import NONE, Puzzle, Whole, best_check, splits
from thruline.find.story import answer_words
from thruline.find.trials import Trial

MOST_DEEP = 4
LEAST = 0.008
"""Branches less likely than that are not printed."""
WORTH_ASKING = 0.03
"""Below that the likeliest mends are told at once."""
MOST_NAMED = 3
NEEDS_TOOL = frozenset({Trial.LISTEN, Trial.SEND, Trial.IDENTITY, Trial.LOOPBACK})


@dataclass(frozen=True, slots=True)
class Branch:
    """What follows from an answer: the number of the next entry, or what to do."""

    answer: str
    goes_to: int | None
    do: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One numbered entry of the card: a check and where each answer leads."""

    number: int
    asks: str
    caution: str
    branches: tuple[Branch, ...]


def card_for(field: Field) -> tuple[Entry, ...]:
    """The entries of the card, the first to begin with."""
    keep = [place for place, one in enumerate(field.checks) if one.trial not in NEEDS_TOOL]
    rows = np.array([row for row in range(field.prior.size) if row != OTHER], np.int64)
    names = {name: number for number, name in enumerate(dict.fromkeys(field.mends))}
    puzzle = Puzzle(
        outcomes=field.outcomes[np.ix_(rows, np.array(keep, np.int64))],
        classes=np.array([names[field.mends[row]] for row in rows.tolist()], np.int64),
        weights=field.prior[rows],
        seconds=field.seconds[keep],
    )
    drawn = _Drawn(field, puzzle, keep, rows, [])
    _entry(drawn, puzzle.all_rows, 1)
    return tuple(one for one in drawn.entries if one is not None)


@dataclass(frozen=True, slots=True)
class _Drawn:
    """A card on its way."""

    field: Field
    puzzle: Puzzle
    keep: list[int]
    rows: Whole
    entries: list[Entry | None]


def _entry(drawn: _Drawn, state: Whole, depth: int) -> int | None:
    """Write the entry for a state; its number, None where there is nothing left to ask."""
    check = best_check(drawn.puzzle, state, depth=0) if depth <= MOST_DEEP else NONE
    if check == NONE:
        return None
    number = len(drawn.entries) + 1
    drawn.entries.append(None)
    place = drawn.keep[check]
    asked = drawn.field.checks[place]
    branches = []
    for after in splits(drawn.puzzle, state, check):
        share = float(drawn.puzzle.weights[after].sum())
        if share < LEAST:
            continue
        code = int(drawn.puzzle.outcomes[after[0], check])
        words = answer_words(drawn.field, asked, drawn.field.answers[place][code])
        goes_to = _entry(drawn, after, depth + 1) if share >= WORTH_ASKING else None
        branches.append(Branch(words, goes_to, () if goes_to else _mends(drawn, after)))
    drawn.entries[number - 1] = Entry(
        number=number, asks=asked.asks, caution=asked.caution, branches=tuple(branches)
    )
    return number


def _mends(drawn: _Drawn, state: Whole) -> tuple[str, ...]:
    """What to do where nothing more is asked: the likeliest mends first."""
    order = state[np.argsort(-drawn.puzzle.weights[state], kind="stable")]
    told: dict[str, str] = {}
    for row in drawn.rows[order].tolist():
        if row == NOTHING:
            told.setdefault("", "nothing is wrong there")
        else:
            suspect = drawn.field.suspects[row - FIRST]
            told.setdefault(suspect.mend_key, suspect.mend)
    return tuple(told.values())[:MOST_NAMED]
