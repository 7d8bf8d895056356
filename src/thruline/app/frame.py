"""The frame of every answer to other programs: one object with `format` and what it answers."""

import shlex
from typing import Any, TypeAlias

from thruline.document.problems import Problem

FORMAT = 1
"""The format of all answers; raised when a key changes its meaning or goes away."""

Json: TypeAlias = dict[str, Any]


def answer(question: str, **facts: object) -> Json:
    """The frame of an answer: which question it answers, and its facts."""
    return {"format": FORMAT, "answers": question, **facts}


def typed_in(*words: str) -> str:
    """A command of this program as one types it; what a shell would take apart is quoted.

    >>> typed_in("prove", "odd name.rig.toml")
    "thruline prove 'odd name.rig.toml'"
    """
    return shlex.join(("thruline", *words))


def problem_json(problem: Problem) -> Json:
    """What is wrong at one place of a document."""
    spot = problem.spot
    return {
        "file": spot.file,
        "row": spot.row,
        "column": spot.column,
        "says": problem.says,
        "found": problem.found,
        "allowed": problem.allowed,
        "nearest": problem.nearest,
        "example": problem.example,
    }
