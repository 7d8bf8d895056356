"""How big things are in the code: `python -m tools.measure_shape [FOLDER]`.

The shape tests ask the same functions, so that what a test says can be looked at here.
"""

import ast
import io
import statistics
import sys
import tokenize
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from tools.environment import ROOT

SOURCES = ROOT / "src" / "thruline"
NO_CODE = frozenset({
    tokenize.COMMENT,
    tokenize.NL,
    tokenize.NEWLINE,
    tokenize.INDENT,
    tokenize.DEDENT,
    tokenize.ENDMARKER,
})  # fmt: skip
FunctionNode = (ast.FunctionDef, ast.AsyncFunctionDef)
Node = TypeVar("Node", bound=ast.AST)


@dataclass(frozen=True, slots=True, kw_only=True)
class Function:
    """One function: where it begins, and how much there is of it."""

    name: str
    row: int
    code_rows: int
    """Rows that hold code: neither blank, nor a comment, nor part of a docstring."""
    parameters: int
    """All parameters but `self` and `cls`."""
    by_position: int
    """Those of them that a caller may give by position."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Module:
    """One file of code: its tree, how many rows it has, and its functions."""

    file: Path
    tree: ast.Module
    rows: int
    code_rows: int
    docstring_rows: int
    functions: tuple[Function, ...]

    @property
    def place(self) -> str:
        """Where it lies, as a reader would look for it: `src/thruline/base/spot.py`."""
        return self.file.relative_to(ROOT).as_posix()

    def nodes(self, kind: type[Node]) -> Iterator[Node]:
        """Every node of the tree that is of this kind."""
        return (node for node in ast.walk(self.tree) if isinstance(node, kind))


def measure(file: Path) -> Module:
    """Measure one file. Raises SyntaxError when it is not Python."""
    text = file.read_text(encoding="utf-8")
    tree = ast.parse(text)
    docstrings = docstring_rows(tree)
    code = code_rows(text) - docstrings
    return Module(
        file=file,
        tree=tree,
        rows=len(text.splitlines()),
        code_rows=len(code),
        docstring_rows=len(docstrings),
        functions=tuple(functions(tree, code)),
    )


def modules(folder: Path = SOURCES) -> list[Module]:
    """Every module below a folder, in order."""
    return [measure(file) for file in sorted(folder.rglob("*.py"))]


def code_rows(text: str) -> set[int]:
    """The rows on which something stands that is neither blank nor a comment."""
    tokens = tokenize.generate_tokens(io.StringIO(text).readline)
    return {
        row
        for token in tokens
        if token.type not in NO_CODE
        for row in range(token.start[0], token.end[0] + 1)
    }


def docstring_rows(tree: ast.Module) -> set[int]:
    """The rows of docstrings, those below an attribute included."""
    return {
        row
        for node in ast.walk(tree)
        if isinstance(node, ast.Expr)
        and isinstance(node.value, ast.Constant)
        and isinstance(node.value.value, str)
        for row in range(node.lineno, (node.end_lineno or node.lineno) + 1)
    }


def functions(tree: ast.Module, code: set[int]) -> Iterator[Function]:
    """Every function of a module, methods and inner functions too."""
    for node in ast.walk(tree):
        if isinstance(node, FunctionNode):
            rows = range(node.lineno, (node.end_lineno or node.lineno) + 1)
            yield Function(
                name=node.name,
                row=node.lineno,
                code_rows=sum(row in code for row in rows),
                parameters=len(parameters(node.args)),
                by_position=len(parameters(node.args, by_position=True)),
            )


def parameters(given: ast.arguments, *, by_position: bool = False) -> list[ast.arg]:
    """The parameters of a function but `self` and `cls`: all, or those given by position."""
    positional = [*given.posonlyargs, *given.args]
    by_name = [] if by_position else [given.vararg, *given.kwonlyargs, given.kwarg]
    every = [*positional, *by_name]
    return [one for one in every if one is not None and one.arg not in {"self", "cls"}]


def spread(numbers: Sequence[int]) -> str:
    """Median, ninetieth percentile and largest, as one row of the report."""
    if len(numbers) < 2:
        return "too few to tell"
    ninth = statistics.quantiles(numbers, n=10)[-1]
    return f"median {statistics.median(numbers):.0f}, p90 {ninth:.0f}, most {max(numbers)}"


def report(folder: Path) -> Iterator[str]:
    """What there is in a folder, and its largest parts."""
    found = modules(folder)
    every = [(function, module) for module in found for function in module.functions]
    rows = sum(module.rows for module in found)
    share = sum(module.docstring_rows for module in found) / max(rows, 1)
    yield f"{len(found)} modules, {rows} rows, {share:.0%} of them docstrings"
    yield f"rows of a module:          {spread([module.rows for module in found])}"
    yield f"code rows of a function:   {spread([function.code_rows for function, _ in every])}"
    yield f"parameters of a function:  {spread([function.parameters for function, _ in every])}"
    yield "longest modules:"
    for module in sorted(found, key=lambda module: -module.rows)[:5]:
        yield f"    {module.rows:4}  {module.place}"
    yield "longest functions:"
    for function, module in sorted(every, key=lambda pair: -pair[0].code_rows)[:5]:
        yield f"    {function.code_rows:4}  {module.place}:{function.row} {function.name}"


if __name__ == "__main__":
    chosen = Path(sys.argv[1]).resolve() if len(sys.argv) > 1 else SOURCES
    print("\n".join(report(chosen)))
