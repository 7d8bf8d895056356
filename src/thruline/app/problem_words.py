"""What is wrong with a document, for a page: in sentences, without rows that nobody sees there."""

from thruline.document.problems import BadDocument, Problem, shown_text

MOST_TOLD = 3
"""So many problems are told, for they stand one after the other."""
_RIG = ".rig.toml"


def problems_in_words(trouble: BadDocument, *, has_rows: bool = False) -> str:
    """What was found, what belongs there, and an example.

    `has_rows` names the rows of a rig, for who has the document at hand. Of another document its
    file and row are always named.
    """
    found = trouble.problems[:MOST_TOLD]
    told = [_in_words(one, has_rows=has_rows, is_one=len(found) == 1) for one in found]
    rest = len(trouble.problems) - len(told) + trouble.more
    return shown_text(". ".join([*told, *([f"And {rest} more"] if rest else [])]))


def _in_words(problem: Problem, *, has_rows: bool, is_one: bool) -> str:
    key, example = _example(problem)
    parts = [f"{key}: {problem.says}" if key and not is_one else problem.says]
    if problem.allowed:
        parts.append(f"here belongs {problem.allowed}".replace("`", '"'))
    if example and example not in problem.allowed:
        parts.append(f"for example {example}")
    return _where(problem, has_rows=has_rows) + "; ".join(parts)


def _where(problem: Problem, *, has_rows: bool) -> str:
    spot = problem.spot
    file = spot.file.replace("\\", "/").rpartition("/")[2]
    if not file.endswith(_RIG):
        return f"{file}, row {spot.row}: "
    return f"row {spot.row}: " if has_rows else ""


def _example(problem: Problem) -> tuple[str, str]:
    """A key, and what could be given to it, as it is typed on a page; empty where it is more."""
    key, _, value = problem.example.partition(" = ")
    if "\n" in problem.example or value.startswith(("{", "[")):
        return "", ""
    return key, value.strip('"')
