"""How anything reaches the person: text or JSON on standard output, trouble on standard error.

Nothing else prints. Colour only on a terminal, and never as the only sign.
"""

import io
import json
import os
import re
import shlex
import shutil
import sys
import time
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from typing import Protocol, TextIO

from thruline.document.unseen import UNSEEN

STYLES: Mapping[str, str] = {
    "fault": "\x1b[1;31m",
    "risk": "\x1b[33m",
    "advice": "\x1b[36m",
    "good": "\x1b[32m",
    "quiet": "\x1b[2m",
    "strong": "\x1b[1m",
    "line-0": "\x1b[38;5;37m",
    "line-1": "\x1b[38;5;173m",
    "line-2": "\x1b[38;5;136m",
    "line-3": "\x1b[38;5;68m",
    "line-4": "\x1b[38;5;133m",
}
"""The last five tell the lines of a drawing apart; they are legible on light and dark alike."""
PLAIN = "\x1b[0m"
_STEERS = re.compile(
    f"(?P<ours>{'|'.join(map(re.escape, (*STYLES.values(), PLAIN)))})|{UNSEEN.pattern}"
)
SLOW_SECONDS = 1.0
"""Work that is expected to take longer than this shows how far it is."""


def wants_colour() -> bool:
    """Whether standard output is a terminal that takes colour (NO_COLOR is honoured)."""
    return sys.stdout.isatty() and "NO_COLOR" not in os.environ and os.environ.get("TERM") != "dumb"


def terminal_width() -> int:
    """Columns to write in: those of the terminal from 80 to 120, 100 elsewhere."""
    if not sys.stdout.isatty():
        return 100
    return min(120, max(80, shutil.get_terminal_size().columns))


def can_show(text: str) -> bool:
    """Whether standard output can hold these letters."""
    try:
        text.encode(sys.stdout.encoding or "ascii")
    except UnicodeEncodeError:
        return False
    return True


def styled(text: str, style: str) -> str:
    """The text in a style, on a terminal; as it is elsewhere."""
    return f"{STYLES[style]}{text}{PLAIN}" if wants_colour() else text


def called() -> str:
    """How the person calls this program: by its name where that is found, else as it was called."""
    began = Path(sys.argv[0])
    if shutil.which("thruline"):
        return "thruline"
    if began.name == "__main__.py":
        return f"{shlex.quote(sys.executable)} -m thruline"
    return shlex.quote(str(began)) if began.stem == "thruline" else "thruline"


def harmless(text: str) -> str:
    """The text with whatever would steer a terminal spelled out, but for our own styles.

    Names of files and what stands in captures may hold anything.
    """
    return _STEERS.sub(lambda found: found["ours"] or _spelled(found[0]), text)


def _spelled(character: str) -> str:
    return character.encode("unicode_escape").decode("ascii")


def say(text: str = "") -> None:
    """A row of text for the person."""
    print(harmless(text))


def say_all(rows: Iterable[str]) -> None:
    """Several rows of text."""
    for row in rows:
        say(row)


def give_json(answer: Mapping[str, object]) -> None:
    """One object for other programs; letters are escaped where the output is not UTF-8."""
    print(_json_text(answer, indent=2))


def give_row(answer: Mapping[str, object]) -> None:
    """One object for other programs on one row, brought out at once: a dialogue waits for it."""
    print(_json_text(answer), flush=True)


def _json_text(answer: Mapping[str, object], *, indent: int | None = None) -> str:
    is_plain = (sys.stdout.encoding or "utf-8").lower().replace("-", "") == "utf8"
    text = json.dumps(answer, ensure_ascii=not is_plain, indent=indent)
    return UNSEEN.sub(lambda found: f"\\u{ord(found[0]):04x}", text)


def ask_rows(sign: str = "") -> Iterator[str]:
    """What is written to standard input, row by row, until it ends; `sign` asks for each."""
    while True:
        if sign:
            print(sign, end="", flush=True)
        row = sys.stdin.readline() if sys.stdin is not None else ""
        if not row:
            if sign:
                print()
            return
        yield row.rstrip("\n")


def settle_output() -> None:
    """Make both outputs fit for anything that may be said.

    Letters that the terminal or the file behind a pipe cannot hold become question marks; an
    output that was closed before the program began leads nowhere.
    """
    sys.stdout, sys.stderr = _settled(sys.stdout), _settled(sys.stderr)


def _settled(stream: TextIO | None) -> TextIO:
    if stream is None:
        return io.TextIOWrapper(io.FileIO(os.devnull, "w"), encoding="utf-8")
    if isinstance(stream, io.TextIOWrapper):
        stream.reconfigure(errors="replace")
    return stream


def flush_output() -> None:
    """Bring out what is still on its way. Raises OSError when it cannot be taken."""
    sys.stdout.flush()


def give_output_up() -> None:
    """Let standard output lead nowhere, so that what it still holds does no more harm."""
    with suppress(io.UnsupportedOperation):  # it may be no file at all
        number = sys.stdout.fileno()
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, number)
        os.close(nowhere)


def complain(text: str) -> None:
    """Trouble, on standard error."""
    print(harmless(text), file=sys.stderr)


def ask(question: str) -> str:
    """What the person answers, on standard error so that an answer in JSON stays alone."""
    print(f"{harmless(question)} ", end="", file=sys.stderr, flush=True)
    return sys.stdin.readline().strip()


class Done(Protocol):
    """Told how much of long work is done and, where it changes, what is done now."""

    def __call__(self, count: int, what: str | None = None) -> None:
        """So many steps are done."""


@contextmanager
def progress(begins: str, total: int) -> Iterator[Done]:
    """A bar on the terminal while long work goes on; yields a function taking what is done.

    It appears only after a second, so quick work shows nothing; off a terminal it never does.
    """
    began = time.monotonic()
    with ExitStack() as shown:
        bars: list[Done] = []

        def done(count: int, what: str | None = None) -> None:
            if not bars and sys.stderr.isatty() and time.monotonic() - began >= SLOW_SECONDS:
                bars.append(_bar(begins, total, shown))
            for bar in bars:
                bar(count, what)

        yield done


def _bar(begins: str, total: int, shown: ExitStack) -> Done:
    """Start a bar that goes when `shown` closes; returns what moves it."""
    from rich.console import Console  # noqa: PLC0415 - heavy, and only for long work
    from rich.progress import Progress  # noqa: PLC0415 - likewise

    bar = shown.enter_context(
        Progress(
            console=Console(stderr=True),
            transient=True,
            redirect_stdout=False,  # what is said meanwhile stays on standard output
        )
    )
    task = bar.add_task(begins, total=total)
    return lambda count, what=None: bar.update(task, completed=count, description=what)


def table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """Rows of cells as aligned text, a rule under the head."""
    widths = [max(len(str(cell)) for cell in column) for column in zip(head, *rows, strict=True)]
    shown = [
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in [head, *rows]
    ]
    return [shown[0], "  ".join("-" * width for width in widths), *shown[1:]]


@contextmanager
def only_ours() -> Iterator[None]:
    """Keep standard output clean for a while: whatever is written there goes nowhere.

    A solver library now and then writes notes of its own there, past Python, and they would spoil
    an answer for other programs.
    """
    sys.stdout.flush()
    try:
        number = sys.stdout.fileno()
    except (io.UnsupportedOperation, AttributeError):  # it is no file: nothing gets past Python
        yield
        return
    kept, nowhere = os.dup(number), os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, number)
    try:
        yield
    finally:
        os.dup2(kept, number)
        os.close(kept)
        os.close(nowhere)
