"""Write the pages that are made from the code: `python -m tools.write_reference [--check]`.

Each module of `tools/reference` makes pages: its `pages()` yields their names below docs/reference
and their texts. A new kind of page is a new module there, and nothing else. `--check` writes
nothing, and says which committed pages are not what would be written (exit code 1).
"""

import importlib
import pkgutil
import sys
from collections.abc import Iterator
from pathlib import Path

from tools import reference
from tools.environment import ROOT

PLACE = ROOT / "docs" / "reference"
BY_HAND = frozenset({"python.md"})
"""Pages in that folder that a person writes."""


def pages() -> Iterator[tuple[str, str]]:
    """Every generated page: its name below docs/reference, and its text."""
    for found in pkgutil.iter_modules(reference.__path__):
        yield from importlib.import_module(f"tools.reference.{found.name}").pages()


def stale(place: Path, made: dict[str, str]) -> list[str]:
    """What differs between a folder and the pages made from the code, a row for each."""
    there = {
        file.relative_to(place).as_posix(): file.read_text(encoding="utf-8")
        for file in place.rglob("*.md")
    }
    missing = [f"{name} is missing" for name in made if name not in there]
    old = [f"{name} is out of date" for name in made if there.get(name, made[name]) != made[name]]
    extra = [f"{name} is made by nothing" for name in there if name not in made.keys() | BY_HAND]
    return missing + old + extra


def write(place: Path, made: dict[str, str]) -> None:
    """Make a folder hold these pages, and no others but those written by hand."""
    for file in place.rglob("*.md"):
        if file.relative_to(place).as_posix() not in made.keys() | BY_HAND:
            file.unlink()
    for name, text in made.items():
        file = place / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8", newline="\n")


def main(words: list[str]) -> int:
    """Write the pages, or with `--check` compare them; the exit code."""
    made = dict(pages())
    if words != ["--check"]:
        write(PLACE, made)
        return 0
    differences = stale(PLACE, made)
    for difference in differences:
        print(f"docs/reference/{difference}: run  .venv/bin/python -m tools.write_reference")
    return 1 if differences else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
