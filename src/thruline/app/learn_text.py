"""What remains unknown, written as comments into a document at the places it is about."""

from collections.abc import Iterable

from thruline.app.kinds import parse_rig
from thruline.app.learn_said import Remark

MARK = "# unknown: "
WIDTH = 100


def with_remarks(text: str, remarks: Iterable[Remark], *, file: str) -> str:
    """The text with a comment above everything of which something is unknown.

    What is about the whole of it stands at the top.
    """
    document = parse_rig(text, file=file)
    rows = text.split("\n")
    above: dict[int, list[str]] = {}
    for one in remarks:
        row = 0
        if one.where is not None:
            row = _head_of(rows, document.spot_of(one.where).row - 1)
        above.setdefault(row, []).extend(comment(one.says))
    for row in sorted(above, reverse=True):
        gap = [""] if row == 0 else []
        rows[row:row] = [*above[row], *gap]
    return "\n".join(rows)


def _head_of(rows: list[str], row: int) -> int:
    """The row with the header of the table that a row stands in."""
    while row > 0 and not rows[row].startswith("["):
        row -= 1
    return row


def comment(says: str) -> list[str]:
    """A sentence as rows of a comment."""
    rows, row = [], MARK.rstrip()
    for word in says.split():
        if len(row) + 1 + len(word) > WIDTH:
            rows.append(row)
            row = "#  "
        row = f"{row} {word}"
    return [*rows, row]
