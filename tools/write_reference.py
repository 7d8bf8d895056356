"""Write what is made from the code: `python -m tools.write_reference [--check]`.

Each module of `tools/reference` makes pages: its `pages()` yields their names below docs/reference
and their texts. A new kind of page is a new module there, and nothing else. `tools.schemas` makes
the JSON Schemas that are shipped, and `tools.console` puts into the pages of `docs/how` what
commands say now. `--check` writes nothing, and says which committed files are not
what would be written (exit code 1).
"""

import importlib
import pkgutil
import sys
from collections.abc import Iterator
from pathlib import Path

from tools import console, reference, schemas
from tools.environment import ROOT

PLACE = ROOT / "docs" / "reference"
HOW = ROOT / "docs" / "how"
SCHEMAS = ROOT / "src" / "thruline" / "schemas"
BY_HAND = frozenset({"python.md"})
"""Pages in that folder that a person writes."""


def pages() -> Iterator[tuple[str, str]]:
    """Every generated page: its name below docs/reference, and its text."""
    for found in pkgutil.iter_modules(reference.__path__):
        yield from importlib.import_module(f"tools.reference.{found.name}").pages()


def how_pages() -> Iterator[tuple[str, str]]:
    """Every page that shows how something is done, with what its commands say now."""
    for name, file in there_in(HOW).items():
        yield name, console.refreshed(file.read_text(encoding="utf-8"))


def there_in(place: Path) -> dict[str, Path]:
    """The files that a folder holds, by their names below it."""
    kinds = (".md", ".json")
    files = [file for file in place.rglob("*") if file.suffix in kinds]
    return {file.relative_to(place).as_posix(): file for file in files}


def stale(place: Path, made: dict[str, str]) -> list[str]:
    """What differs between a folder and the files made from the code, a row for each."""
    there = {name: file.read_text(encoding="utf-8") for name, file in there_in(place).items()}
    missing = [f"{name} is missing" for name in made if name not in there]
    old = [f"{name} is out of date" for name in made if there.get(name, made[name]) != made[name]]
    extra = [f"{name} is made by nothing" for name in there if name not in made.keys() | BY_HAND]
    return missing + old + extra


def write(place: Path, made: dict[str, str]) -> None:
    """Make a folder hold these files, and no others but those written by hand."""
    for name, file in there_in(place).items():
        if name not in made.keys() | BY_HAND:
            file.unlink()
    for name, text in made.items():
        file = place / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8", newline="\n")


def main(words: list[str]) -> int:
    """Write everything, or with `--check` compare it; the exit code."""
    made = {PLACE: dict(pages()), SCHEMAS: dict(schemas.texts()), HOW: dict(how_pages())}
    if words != ["--check"]:
        for place, texts in made.items():
            write(place, texts)
        return 0
    found = [(place, row) for place, texts in made.items() for row in stale(place, texts)]
    for place, row in found:
        told = place.relative_to(ROOT) if place.is_relative_to(ROOT) else place
        print(f"{told.as_posix()}/{row}: run  .venv/bin/python -m tools.write_reference")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
