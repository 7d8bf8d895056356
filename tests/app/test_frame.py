import shlex

import pytest

from thruline.app.frame import FORMAT, answer, problem_json, typed_in
from thruline.base.spot import Spot
from thruline.document.problems import Problem


def test_every_answer_says_its_format_and_its_question():
    assert answer("prove", rig="A") == {"format": FORMAT, "answers": "prove", "rig": "A"}


@pytest.mark.parametrize("file", ["a.rig.toml", "odd name.toml", "it's; $x `y`.toml", "a\nb"])
def test_a_command_reaches_a_shell_as_it_was_meant(file):
    assert shlex.split(typed_in("mend", file, "--do", "MEND")) == [
        "thruline", "mend", file, "--do", "MEND",
    ]  # fmt: skip


def test_a_problem():
    problem = Problem(spot=Spot("a.rig.toml", 6, 11), says="17 is too high", found="17")
    assert problem_json(problem) == {
        "file": "a.rig.toml",
        "row": 6,
        "column": 11,
        "says": "17 is too high",
        "found": "17",
        "allowed": "",
        "nearest": None,
        "example": "",
    }
