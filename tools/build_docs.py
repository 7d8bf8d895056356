"""Build the pages strictly, and make sure that they need no network: `python -m tools.build_docs`.

They are built into a temporary folder, or into the one that is named. Exit code 1 when mkdocs
warns of anything, or when a built page loads a script, style, font or picture from elsewhere.
"""

import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

from tools.environment import ROOT

LOADS = {
    "script": "src",
    "link": "href",
    "img": "src",
    "iframe": "src",
    "source": "src",
    "video": "src",
    "audio": "src",
    "object": "data",
    "embed": "src",
}
"""The elements of a page that make a browser load something, and by which attribute (HTML)."""
ELSEWHERE = re.compile(r"\s*(?:https?:)?//", re.IGNORECASE)
LOADS_IN_STYLE = re.compile(
    r"(?:url\(|@import)\s*['\"]?\s*(?P<address>(?:https?:)?//[^'\")\s]+)", re.IGNORECASE
)


class Loads(HTMLParser):
    """Collects what a page loads from elsewhere."""

    def __init__(self) -> None:
        super().__init__()
        self.addresses: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Called by the parser at each element."""
        for name, value in attrs:
            if value and name == LOADS.get(tag) and ELSEWHERE.match(value):
                self.addresses.append(value)


def loaded_by_page(text: str) -> list[str]:
    """The addresses that a page of HTML loads from elsewhere."""
    loads = Loads()
    loads.feed(text)
    return loads.addresses + loaded_by_style(text)


def loaded_by_style(text: str) -> list[str]:
    """The addresses that a style sheet loads from elsewhere."""
    return [found["address"] for found in LOADS_IN_STYLE.finditer(text)]


def loaded_from_elsewhere(site: Path) -> Iterator[str]:
    """What built pages and styles would fetch from the network, and which of them does."""
    for file in sorted(site.rglob("*")):
        if file.suffix in {".html", ".css", ".svg"}:
            text = file.read_text(encoding="utf-8")
            loads = loaded_by_page(text) if file.suffix == ".html" else loaded_by_style(text)
            yield from (f"{file.relative_to(site)} loads {address}" for address in loads)


def build(site: Path) -> int:
    """Build the pages into a folder and look through them; the exit code."""
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--quiet"]
    if subprocess.call([*command, "--clean", "--site-dir", site], cwd=ROOT) != 0:
        return 1
    loads = list(loaded_from_elsewhere(site))
    for load in loads:
        print(load)
    return 1 if loads else 0


def main(words: list[str]) -> int:
    """Build into the named folder, or only try it."""
    if words:
        return build(Path(words[0]).resolve())
    with tempfile.TemporaryDirectory() as folder:
        return build(Path(folder))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
