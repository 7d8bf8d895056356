"""What commands say on a page, said anew: the blocks of `docs/how` are run and their output put in.

A page is run from top to bottom in an empty folder of its own. In a block ```console a row that
begins with `$ thruline` is run; it may be cut by `| head -N`, `| tail -N`, `| grep WORD` or
`| grep -A N WORD`. Between the blocks, comments of HTML do what the reader is told to do by hand:

    <!-- set FILE ADDRESS = VALUE -->        change a document, the value as TOML
    <!-- remove FILE ADDRESS -->             take something out of it
    <!-- write FILE -->                      the next block of TOML is the text of this file
    <!-- append FILE -->                     the next block of TOML goes to its end
    <!-- copy SAMPLE to FILE -->             a packaged sample

What depends on the day is taken out: how many milliseconds something took.
"""

import io
import re
import shlex
import tomllib
from collections.abc import Iterable, Iterator
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path

from thruline.base.address import read_address
from thruline.base.edit import Edit, remove, set_to
from thruline.cli.main import run
from thruline.document.change import apply
from tools.reference.answers import sample
from tools.scratch import scratch

_PIECE = re.compile(
    r"<!-- (?P<do>set|remove|write|append|copy) (?P<what>.+?) -->"
    r"|```console\n(?P<console>.*?)```"
    r"|```toml\n(?P<toml>.*?)```",
    re.DOTALL,
)
_TIME = re.compile(r"\bin \d+ ms\b")


def refreshed(page: str) -> str:
    """A page with what its commands say now. Raises ValueError for a row that cannot be run."""
    with scratch() as folder:
        return _PIECE.sub(_Reader(folder), page)


class _Reader:
    """Does on a page, piece by piece, what a reader would do."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._next_file: Path | None = None
        self._mode = "w"

    def __call__(self, piece: re.Match[str]) -> str:
        """Do what a piece asks for; gives back the piece, with new output where it has any."""
        if piece["console"] is not None:
            return f"```console\n{''.join(_block(piece['console']))}```"
        if piece["do"] is not None:
            self._act(piece["do"], piece["what"])
        elif self._next_file is not None:
            self._next_file.parent.mkdir(parents=True, exist_ok=True)
            with self._next_file.open(self._mode, encoding="utf-8") as file:
                file.write(piece["toml"])
            self._next_file = None
        return piece[0]

    def _act(self, do: str, what: str) -> None:
        match do:
            case "write" | "append":
                self._next_file, self._mode = self._folder / what, do[0]
            case "copy":
                place, _, name = what.partition(" to ")
                (self._folder / name).write_text(sample(place), encoding="utf-8")
            case _:
                name, _, rest = what.partition(" ")
                file = self._folder / name
                text = apply(file.read_text(encoding="utf-8"), [_edit(do, rest)], file=name)
                file.write_text(text, encoding="utf-8")


def _edit(do: str, told: str) -> Edit:
    if do == "remove":
        return remove(read_address(told))
    address, _, value = told.partition(" = ")
    return set_to(read_address(address), tomllib.loads(f"value = {value}")["value"])


def _block(text: str) -> Iterator[str]:
    """The rows of a block: each command, and what it says."""
    for row in text.splitlines():
        if row.startswith("$ "):
            yield f"{row}\n"
            yield from (f"{said}\n" for said in said_by(row.removeprefix("$ ")))


def said_by(command: str) -> Iterable[str]:
    """What a command says, row by row. Raises ValueError for anything but `thruline`."""
    call, *cuts = command.split(" | ")
    name, *words = shlex.split(call)
    if name != "thruline":
        raise ValueError(f"only thruline can be run on a page, not: {command}")
    said = io.StringIO()
    with redirect_stdout(said), redirect_stderr(said):
        run(words)
    rows = [_TIME.sub("in ... ms", row) for row in said.getvalue().splitlines()]
    for cut in cuts:
        rows = _cut(rows, cut)
    return rows


def _cut(rows: list[str], cut: str) -> list[str]:
    match shlex.split(cut):
        case ["head", number]:
            return rows[: int(number.removeprefix("-"))]
        case ["tail", number]:
            return rows[-int(number.removeprefix("-")) :]
        case ["grep", word]:
            return [row for row in rows if word in row]
        case ["grep", "-A", number, word]:
            found = next((at for at, row in enumerate(rows) if word in row), len(rows))
            return rows[found : found + int(number) + 1]
        case _:
            raise ValueError(f"cannot be done on a page: {cut}")
