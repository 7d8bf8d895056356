"""start.py is read by whatever Python is called; what it starts is tested under tests/tools."""

import ast

import pytest

import start
from tools.environment import ROOT

# What Python 2 cannot read: it would answer with a traceback instead of our sentence.
NEWER_THAN_PYTHON_2 = (
    ast.AnnAssign,
    ast.AsyncFunctionDef,
    ast.JoinedStr,
    ast.Match,
    ast.NamedExpr,
    ast.Nonlocal,
    ast.Starred,
)


@pytest.fixture(scope="module")
def tree() -> ast.Module:
    return ast.parse((ROOT / "start.py").read_text(encoding="ascii"))


def test_old_pythons_can_read_it(tree: ast.Module) -> None:
    newer = [node for node in ast.walk(tree) if isinstance(node, NEWER_THAN_PYTHON_2)]
    assert not newer


def test_it_has_no_annotations(tree: ast.Module) -> None:
    functions = [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]
    given = [argument for function in functions for argument in ast.walk(function.args)]
    assert all(function.returns is None for function in functions)
    assert all(getattr(argument, "annotation", None) is None for argument in given)


def test_an_old_python_is_told_what_is_missing(monkeypatch, capsys) -> None:
    monkeypatch.setattr(start.sys, "version_info", (3, 8, 1))
    assert start.main(["demo"]) == 2
    said = capsys.readouterr().err
    assert "needs Python 3.11 or newer, and this is Python 3.8" in said


def test_the_rest_of_the_project_asks_for_the_same_python() -> None:
    oldest = ".".join(str(part) for part in start.OLDEST)
    assert f'requires-python = ">={oldest}"' in (ROOT / "pyproject.toml").read_text("utf-8")
