"""The house as it stands: a page that lists every module, and one page for each stage."""

import ast
from collections.abc import Iterator

from tools.measure_shape import SOURCES, Module, modules

HEAD = """\
# Every module

Made from the code. A package says for itself what it takes, what it gives and what it need not
know; below it stand its modules, with a sentence each.
"""

PUBLIC = "The public names of this package, made from the code."


def pages() -> Iterator[tuple[str, str]]:
    """The list of modules, then a page of public names for each package."""
    found = modules()
    packages = [module for module in found if is_stage(module)]
    yield "modules.md", "\n".join([HEAD, *(section(package, found) for package in packages)])
    for package in packages:
        name = dotted(package)
        title = package.file.parent.name
        yield f"stages/{title}.md", f"# {title}\n\n{PUBLIC}\n\n::: {name}\n"


def is_stage(module: Module) -> bool:
    """Whether a module is the `__init__` of a package right below `thruline`."""
    return module.file.stem == "__init__" and module.file.parent.parent == SOURCES


def section(package: Module, found: list[Module]) -> str:
    """What a package says of itself, and a table of what is in it."""
    folder = package.file.parent
    inside = [one for one in found if one.file.is_relative_to(folder) and one is not package]
    rows = [
        f"| `{one.file.relative_to(folder).as_posix()}` | {first_sentence(one)} |" for one in inside
    ]
    table = ["| module | what it is |", "|---|---|", *rows, ""] if rows else []
    return "\n".join(
        [f"## [{folder.name}](stages/{folder.name}.md)", "", says(package), "", *table]
    )


def says(module: Module) -> str:
    """The docstring of a module."""
    return ast.get_docstring(module.tree) or ""


def first_sentence(module: Module) -> str:
    """The first paragraph of a docstring on one row, fit for a cell of a table."""
    return " ".join(says(module).split("\n\n")[0].split()).replace("|", "\\|")


def dotted(module: Module) -> str:
    """The name to import a package by."""
    return ".".join(("thruline", *module.file.parent.relative_to(SOURCES).parts))
