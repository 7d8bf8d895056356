"""Findings in short, and steps of mending, as rows of text for the terminal."""

import textwrap
from collections.abc import Iterator

from thruline.app.mend import State, Step
from thruline.app.mending import uncovers
from thruline.cli.proof_text import MARKS, WIDTH
from thruline.cli.show import styled
from thruline.proof.engine import Proof
from thruline.proof.finding import Severity

MOST_ROWS = 4
"""More rows of a difference than these are only counted."""
_INDENT = " " * 10
_KEPT = "\xa0"  # a blank at which no row is broken


def found_rows(state: State) -> Iterator[str]:
    """Every finding in a sentence, with the row of the document that it is about."""
    for finding in state.proof.findings:
        row = state.opened.document.spot_of(finding.where[0]).row
        mark = styled(MARKS[finding.severity].ljust(8), finding.severity.value)
        yield from _hung(mark, f"{finding.says} (row{_KEPT}{row})", extra=len(mark) - 8)
    for one in state.proof.untold:
        yield from _hung("UNTOLD  ", f"{one.says}; missing: {one.lacks}")


def step_rows(number: int, step: Step, before: Proof) -> Iterator[str]:
    """A mend that was made: what was done, how the document changed, and what that did."""
    plain = f"{number:>2} {'safe' if step.done.mend.is_safe else ''}".ljust(8)
    mark = styled(plain, "strong")
    yield from _hung(mark, step.done.mend.says, extra=len(mark) - 8)
    for row in short_diff(step.diff):
        yield styled(f"{_INDENT}{row}"[:WIDTH], "good" if row.startswith("+") else "quiet")
    for finding in uncovers(step):
        yield from _hung("", f"brings to light: {finding.says}")
    yield styled(f"{_INDENT}{_counts(before)} -> {_counts(step.after.proof)}", "quiet")


def short_diff(diff: str, most: int = MOST_ROWS) -> list[str]:
    """The changed rows of a unified difference; long ones are cut and counted."""
    rows = [row for row in diff.splitlines()[2:] if row.startswith(("+", "-"))]
    rows = [row for row in rows if row[1:].strip()]
    if len(rows) <= most:
        return rows
    return [*rows[: most - 1], f"  ... and {len(rows) - most + 1} rows more"]


def _counts(proof: Proof) -> str:
    told = [_counted(proof.count(one), one) for one in Severity if proof.count(one)]
    return ", ".join(told) or "nothing"


def _counted(count: int, severity: Severity) -> str:
    one_word = count == 1 or severity is Severity.ADVICE
    return f"{count} {severity.value}{'' if one_word else 's'}"


def _hung(mark: str, text: str, *, extra: int = 0) -> list[str]:
    """A sentence with a mark in front; `extra` letters of the mark take no room on a terminal."""
    rows = textwrap.wrap(
        f"  {mark}{text}" if mark else f"{_INDENT}{text}",
        WIDTH + extra,
        subsequent_indent=_INDENT,
        break_on_hyphens=False,
        break_long_words=False,
    )
    return [row.replace(_KEPT, " ") for row in rows]
