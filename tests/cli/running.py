"""The command line, run in this process as a person would run it."""

import json
from dataclasses import dataclass
from typing import Any

import pytest

from thruline.cli.main import run


@dataclass(frozen=True)
class Ran:
    """How a run ended: exit code, and what was said where."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """The one object on standard output."""
        return json.loads(self.out)


def ran(capsys: pytest.CaptureFixture[str], *words: object) -> Ran:
    """Run `thruline` with these words."""
    capsys.readouterr()
    code = run([str(word) for word in words])
    said = capsys.readouterr()
    return Ran(code, said.out, said.err)
