"""What start.py can be asked for: set up, then run thruline, the tests, the checks or a benchmark.

Exit codes are those of what was run; 2 when the words cannot be understood, 3 when the environment
cannot be made.
"""

import difflib
import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

from tools.environment import ROOT, WINDOWS, Environment, SetUpFailed, ready

HELP = """\
python3 start.py WORD [what WORD takes]

    demo     set up what is missing, then show thruline on an invented rig
    run      set up what is missing, then thruline with the words that follow
    test     set up what is missing, then all tests (or those that are named)
    check    set up what is missing, then every check of the code and the pages
    bench    set up what is missing, then all benchmarks (or the one that is named)

Needs Python 3.11 or newer, and the network the first time."""

WORDS = ("demo", "run", "test", "check", "bench")
EXIT_CANNOT_USE = 2
EXIT_WORLD_FAILED = 3
EXIT_STOPPED = 130
"""What a shell reports for a program that was stopped by Ctrl-C: 128 and the signal's number, 2."""

RUNS = '\nif __name__ == "__main__":\n'
"""The row that makes a module of Python a program as well."""

Command = Sequence[str | Path]


def main(words: list[str]) -> int:
    """Do what the words ask for; the exit code."""
    if not words or words[0] in {"help", "-h", "--help"}:
        print(HELP)
        return 0 if words else EXIT_CANNOT_USE
    word, *rest = words
    if word not in WORDS:
        print(unknown(word), file=sys.stderr)
        return EXIT_CANNOT_USE
    try:
        environment = ready()
    except SetUpFailed as trouble:
        print(trouble, file=sys.stderr)
        return EXIT_WORLD_FAILED
    except KeyboardInterrupt:
        print("\nStopped. The next start makes .venv anew.", file=sys.stderr)
        return EXIT_STOPPED
    return carry_out(word, rest, environment)


def unknown(word: str) -> str:
    """What to say to a word that is none of ours: the nearest one, or the list."""
    near = difflib.get_close_matches(word, WORDS, n=1)
    if near:
        return f'start.py knows no "{word}". Did you mean:  python3 start.py {near[0]}'
    return (
        f'start.py knows no "{word}". A command of thruline goes behind "run":  '
        f"python3 start.py run {word}\n\n{HELP}"
    )


def carry_out(word: str, rest: list[str], environment: Environment) -> int:
    """Run what the word stands for; the exit code of what was run."""
    match word:
        case "demo":
            return replaced_by([environment.thruline, "demo", *rest])
        case "run":
            return replaced_by([environment.thruline, *rest])
        case "test":
            os.chdir(ROOT)
            return replaced_by([environment.python, "-m", "pytest", "-n", str(cores()), *rest])
        case "check":
            os.chdir(ROOT)
            return replaced_by([environment.python, "-m", "tools.check", *rest])
        case _:
            return bench(rest, environment)


def replaced_by(command: Command) -> int:
    """Run a command in our place, so that signals and exit codes reach it and its caller."""
    sys.stdout.flush()
    if not WINDOWS:
        os.execv(command[0], [str(part) for part in command])  # noqa: S606 - no shell is wanted
    try:
        return subprocess.call(command)
    except KeyboardInterrupt:
        return EXIT_STOPPED


def cores() -> int:
    """How many tests can run side by side: the processors that this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def bench(rest: list[str], environment: Environment) -> int:
    """Run the named benchmark, or all of them one after another; the worst exit code."""
    known = benchmarks(ROOT / "benchmarks")
    named = rest[0] if rest and not rest[0].startswith("-") else None
    if named is not None and named not in known:
        print(f'There is no benchmark "{named}", but: {", ".join(known)}', file=sys.stderr)
        return EXIT_CANNOT_USE
    chosen, options = (known.values(), rest) if named is None else ([known[named]], rest[1:])
    os.chdir(ROOT)
    finds_tools = os.environ | {"PYTHONPATH": str(ROOT)}
    worst = 0
    for script in chosen:
        code = subprocess.call([environment.python, script, *options], env=finds_tools)
        if code:
            print(f"{script.name} ended with exit code {code}", file=sys.stderr)
        worst = max(worst, code)
    return worst


def benchmarks(folder: Path) -> dict[str, Path]:
    """The benchmarks by name, in order: `bench_proof.py` is called `proof`.

    What lies beside them and cannot be run by itself is shared by them.
    """
    scripts = [file for file in sorted(folder.glob("*.py")) if RUNS in file.read_text("utf-8")]
    return {script.stem.removeprefix("bench_"): script for script in scripts}
