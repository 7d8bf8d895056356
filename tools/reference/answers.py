"""The answers that `--json` gives: every key of real answers, and what it means."""

import contextlib
import io
import json
import re
import sys
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any

import thruline.samples
from thruline.cli.main import run
from tools.json_words import ANY, WORDS
from tools.scratch import scratch

HEAD = """\
# Answers for other programs

Made from real answers about the samples. With `--json` a command prints one object in UTF-8 on
standard output and nothing else; trouble goes to standard error, and the
[exit code](commands.md) says the rest. Without a higher `format` keys are added, and never changed.
"""

_RUNS: Mapping[str, Sequence[Sequence[str]]] = {
    "new": [("new", "board")],
    "prove": [
        ("prove", "found.rig.toml"),
        ("prove", "lacking/first.rig.toml", "--report", "a.html"),
    ],
    "mend": [("mend", "found.rig.toml"), ("mend", "found.rig.toml", "--safe", "--try")],
    "plan channels": [("plan", "channels", "found.rig.toml")],
    "plan power": [
        ("plan", "power", "found.rig.toml"),
        ("plan", "power", "short/first.rig.toml"),
    ],
    "plan cables": [("plan", "cables", "found.rig.toml", "--all", "--spool", "8500")],
    "sheet": [("sheet", "found.rig.toml", "settings", "--html", "a.html")],
    "export": [("export", "meant.rig.toml", "show.mid", "7")],
    "book": [("book", "meant.rig.toml", "--part", "power", "--date", "1 May 2026")],
    "open": [("open", "meant.book.pdf", "--to", "again")],
    "compare": [("compare", "found.rig.toml", "short/meant.rig.toml", "--html", "a.html")],
    "trace": [
        ("trace", "found.rig.toml", "13"),
        ("trace", "found.rig.toml", "22"),
        ("trace", "found.rig.toml", "5", "--from", "13", "--svg", "a.svg"),
    ],
    "send": [("send", "meant.rig.toml", "7", "--try")],
    "ports": [("ports",)],
    "listen": [("listen", "meant.rig.toml", "--replay", "heard.capture")],
    "audit": [("audit", "meant.rig.toml", "heard.capture")],
    "learn": [("learn", "learned", "heard.capture")],
    "clock": [("clock", "--replay", "clock.capture")],
    "identify": [("identify", "meant.rig.toml", "--replay", "dump.capture")],
    "backup": [("backup", "meant.rig.toml", "delay", "--replay", "dump.capture", "--name", "a")],
    "restore": [("restore", "meant.rig.toml", "delay", "a", "--try")],
    "pretend": [("pretend", "meant.rig.toml", "new.capture", "--fault", "numbering delay +1")],
    "find": [
        ("find", "found.rig.toml"),
        ("find", "found.rig.toml", "--resume", "search.json"),
        ("find", "found.rig.toml", "--card"),
    ],
    "chart list": [("chart", "list"), ("chart", "list", "--kind", "delay")],
    "chart show": [
        ("chart", "show", "bramley-delay", "--v2", "--html", "a.html"),
        ("chart", "show", "lacking.chart.toml"),
    ],
    "chart check": [("chart", "check", "lacking.chart.toml", "wrong.chart.toml")],
    "chart copy": [("chart", "copy", "bramley-delay", "my-delay.chart.toml")],
    "chart embed": [("chart", "embed", "found.rig.toml")],
    "rules": [("rules",)],
    "workbench": [("workbench", "found.rig.toml", "--no-browser", "--stop-after", "0")],
    "demo": [("demo",)],
}
"""Which runs show every key that an answer can have."""

_DUMP = """thruline capture 1
line 1 USB
0 1 F0 7E 00 06 02 7D 03 00 01 03 01 00 00 00 F7
9000 1 F0 7D 03 01 02 03 04 05 71 F7
"""
_CLOCK = "thruline capture 1\nline 1 USB\n" + "".join(
    f"{turn * 20833} 1 F8\n" for turn in range(60)
)
_LACKING = 'format = 1\n[chart]\nid = "lacking"\nmaker = "A"\nmodel = "B"\nkind = "delay"\n'
_WRONG = _LACKING.replace("kind", "kimd")
_SEARCH = """{"place": "bench", "steps": [
    {"did": "answered", "on": "power echo", "answer": "dark"},
    {"did": "answered", "on": "supply echo", "answer": "nothing"},
    {"did": "answered", "on": "lamp echo 3", "answer": "dark"}
]}"""
_ACCEPTED = """
[[accept]]
finding = "document.name-too-long at preset[21].name"
reason = "known"
"""
_KINDS = {
    str: "text",
    bool: "true or false",
    int: "number",
    float: "number",
    list: "list",
    dict: "table",
    type(None): "null",
}
_ORDER = tuple(_KINDS.values())


def pages() -> Iterator[tuple[str, str]]:
    """One page with the keys of every answer."""
    told = [section(name, keys) for name, keys in answers().items()]
    yield "json.md", "\n".join([HEAD, *told])


@cache
def answers() -> Mapping[str, Mapping[str, str]]:
    """For every command the keys of its answers, each with what it holds."""
    made = {}
    with scratch() as folder:
        _lay_out(folder)
        for name, runs in _RUNS.items():
            kinds: dict[str, set[str]] = {}
            for words in runs:
                _gather(answer_to(words), "", kinds)
            made[name] = {way: _joined(found) for way, found in kinds.items()}
    return made


def _joined(kinds: set[str]) -> str:
    return " or ".join(sorted(kinds, key=_ORDER.index))


def answer_to(words: Sequence[str]) -> Any:  # noqa: ANN401 - whatever JSON can hold
    """The object that a command prints."""
    said, heard = io.StringIO(), sys.stdin
    sys.stdin = io.StringIO()  # nobody answers a dialogue here
    try:
        with contextlib.redirect_stdout(said):
            run([*words, "--json"])
    finally:
        sys.stdin = heard
    return json.loads(said.getvalue())


def _lay_out(folder: Path) -> None:
    """The documents that the runs are about."""
    found = sample("orchard-street/as-found.rig.toml") + _ACCEPTED
    echo = re.sub(r"milliamps = .*", "", sample("charts/laxton-echo.chart.toml"))
    texts = {
        "search.json": _SEARCH,
        "found.rig.toml": found,
        "meant.rig.toml": sample("orchard-street/orchard-street.rig.toml"),
        "dump.capture": _DUMP,
        "clock.capture": _CLOCK,
        "lacking.chart.toml": _LACKING,
        "wrong.chart.toml": _WRONG,
        "short/meant.rig.toml": sample("orchard-street/orchard-street.rig.toml"),
        "short/first.rig.toml": found.replace("elstar", "idared"),
        "lacking/first.rig.toml": sample("first-board/first-board.rig.toml"),
        "lacking/charts/laxton-echo.chart.toml": echo,
    }
    for name, text in texts.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    mistake = ("--fault", "shut pre.midi-out programs", "--at", "looper.midi-in")
    answer_to(("pretend", "meant.rig.toml", "heard.capture", *mistake))


def sample(place: str) -> str:
    """The text of a packaged document."""
    return Path(thruline.samples.__path__[0], *place.split("/")).read_text(encoding="utf-8")


def _gather(value: object, way: str, kinds: dict[str, set[str]]) -> None:
    """Note what stands at a way, and go on inside it where its keys are fixed."""
    if not way.endswith("[]") and way:
        kinds.setdefault(way, set()).add(_kind(value))
    if plain(way).endswith(ANY):
        return
    if isinstance(value, dict):
        for key, below in value.items():
            _gather(below, f"{way}.{key}".strip("."), kinds)
    elif isinstance(value, list):
        for entry in value:
            _gather(entry, f"{way}[]", kinds)


def _kind(value: object) -> str:
    return next(name for kind, name in _KINDS.items() if isinstance(value, kind))


def plain(way: str) -> str:
    """A way without the marks of lists."""
    return way.replace("[]", "")


def meaning(name: str, way: str) -> str | None:
    """What a key means: by the longest end of its way that is known."""
    parts = [*name.split()[:1], *plain(way).split(".")]
    ends = (".".join(parts[start:]) for start in range(len(parts)))
    return next((WORDS[end] for end in ends if end in WORDS), None)


def section(name: str, keys: Mapping[str, str]) -> str:
    """The answer of one command."""
    rows = [f"| `{way}` | {kind} | {meaning(name, way)} |" for way, kind in keys.items()]
    head = ["| key | holds | which is |", "|---|---|---|"]
    return "\n".join([f"## thruline {name} --json", "", *head, *rows, ""])
