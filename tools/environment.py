"""The project's own environment, `.venv`: made when absent, mended when stale, else left alone.

A stamp inside it says what it was made from. As long as the stamp fits nothing is run, so that a
second start costs a few milliseconds.
"""

import hashlib
import importlib.util
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
WINDOWS = os.name == "nt"
SETTINGS = ("pyproject.toml", "constraints.txt")
LIBRARIES = ("lib/python*/site-packages", "Lib/site-packages")
"""Where an environment keeps its libraries: on Linux and macOS, on Windows."""
LAST_READY_PORTS = (3, 13)
"""From this Python on nobody offers the port library ready-made; it can be built by hand."""
OFFLINE_SIGNS = (
    "NewConnectionError",
    "NameResolutionError",
    "ConnectTimeoutError",
    "ReadTimeoutError",
    "ProxyError",
    "Network is unreachable",
    "Connection refused",
    "Could not fetch URL",
)
"""What pip writes when a registry cannot be reached (its own words, tried with pip 23 to 25)."""
ROW_WIDTH = 78
"""How much of a terminal's row the progress of pip may fill."""


class State(StrEnum):
    """How an environment is found."""

    READY = "ready"
    """The stamp fits: use it."""
    ABSENT = "absent"
    """There is none yet."""
    STALE = "stale"
    """It runs, but was made from other settings, or something was taken out of it."""
    BROKEN = "broken"
    """It does not run, was moved, or an earlier set-up was cut short."""


class SetUpFailed(Exception):
    """The environment cannot be made; the text says why, and what to do about it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Environment:
    """Where things are in the environment of the project that lies in `root`."""

    root: Path
    folder: Path
    python: Path
    thruline: Path
    stamp: Path
    half_made: Path
    log: Path


def environment_of(root: Path) -> Environment:
    """The places of a project's environment, whether or not it has been made."""
    folder = root / ".venv"
    scripts = folder / ("Scripts" if WINDOWS else "bin")
    suffix = ".exe" if WINDOWS else ""
    return Environment(
        root=root,
        folder=folder,
        python=scripts / f"python{suffix}",
        thruline=scripts / f"thruline{suffix}",
        stamp=folder / ".set-up",
        half_made=folder / ".half-made",
        log=folder / "set-up.log",
    )


def ready(root: Path = ROOT) -> Environment:
    """The environment, set up first if it has to be; says on stdout what goes on meanwhile.

    Raises SetUpFailed when it cannot be made.
    """
    environment = environment_of(root)
    state = state_of(environment)
    if state is not State.READY:
        set_up(environment, state)
    return environment


def state_of(environment: Environment) -> State:
    """How the environment is found. Its Python is started only when the stamp does not fit."""
    if not environment.folder.exists():
        return State.ABSENT
    if environment.half_made.exists() or not environment.python.exists():
        return State.BROKEN
    if environment.thruline.exists() and stamp_fits(environment):
        return State.READY
    return State.STALE if works(environment) else State.BROKEN


def fingerprint(root: Path, version: tuple[int, ...] = sys.version_info[:2]) -> str:
    """A hash of all that an environment is made from: settings, version of Python, and place.

    The place counts because the scripts in an environment hold it: after a move it is made anew.
    """
    digest = hashlib.sha256(f"{version} {root}".encode())
    for name in SETTINGS:
        digest.update((root / name).read_bytes())
    return digest.hexdigest()


def installed(environment: Environment) -> set[str]:
    """Name and version of everything installed: pip leaves one `.dist-info` folder for each."""
    return {
        entry.stem
        for pattern in LIBRARIES
        for library in environment.folder.glob(pattern)
        for entry in library.glob("*.dist-info")
    }


def stamp_text(environment: Environment) -> str:
    """What the stamp says: the fingerprint, then what is installed, one a row."""
    return "\n".join([fingerprint(environment.root), *sorted(installed(environment))]) + "\n"


def stamp_fits(environment: Environment) -> bool:
    """Whether the stamp is of these settings, and all that it lists is still installed."""
    try:
        head, *listed = environment.stamp.read_text(encoding="utf-8").splitlines()
    except (OSError, ValueError):
        return False
    return head == fingerprint(environment.root) and set(listed) <= installed(environment)


def works(environment: Environment) -> bool:
    """Whether it was made at this place, and its Python starts and finds its own pip."""
    try:
        activate = environment.python.with_name("activate").read_text(encoding="utf-8")
        tried = subprocess.run(
            [environment.python, "-c", "import pip"], capture_output=True, check=False, timeout=60
        )
    except (OSError, ValueError, subprocess.TimeoutExpired):
        return False
    return str(environment.folder) in activate and tried.returncode == 0


def set_up(environment: Environment, state: State) -> None:
    """Make or mend the environment and leave its stamp.

    Raises SetUpFailed when it cannot be made.
    """
    begun = time.monotonic()
    print("\n".join(opening(state)), flush=True)
    try:
        if state is not State.STALE:
            make_folder(environment)
        environment.half_made.touch()
        install(environment)
        compile_sources(environment)
        environment.stamp.write_text(stamp_text(environment), encoding="utf-8")
        environment.half_made.unlink()
    except OSError as trouble:
        raise SetUpFailed(f"{environment.folder} cannot be made: {trouble}") from trouble
    print("\n".join(closing(time.monotonic() - begun)), flush=True)


def opening(state: State) -> Iterator[str]:
    """What a person is told before the wait."""
    if state is State.BROKEN:
        yield "The environment in .venv is broken, moved or half made, so it is made anew."
    if state is State.STALE:
        yield "The environment in .venv is out of date, so it is brought up to date."
    yield "Setting up in .venv: fetching libraries from the package registry and installing them."
    yield "This needs the network, once, about 450 MB of disk, and one to three minutes."


def closing(seconds: float) -> Iterator[str]:
    """What a person is told when all is in place."""
    call, activate = (
        (r".venv\Scripts\thruline.exe", r".venv\Scripts\activate")
        if WINDOWS
        else (".venv/bin/thruline", "source .venv/bin/activate")
    )
    yield f"Ready after {seconds:.0f} s. From now on thruline can be called from this folder as"
    yield f"    {call} --help"
    yield "or, once a shell has been given its environment, from anywhere:"
    yield f"    {activate}"
    yield "    thruline --help"
    yield ""


def make_folder(environment: Environment) -> None:
    """A new environment with nothing in it but pip, in place of whatever stood there.

    Raises SetUpFailed when this Python cannot make one.
    """
    if any(importlib.util.find_spec(name) is None for name in ("venv", "ensurepip")):
        raise SetUpFailed(no_venv_module())
    if environment.folder.exists():
        shutil.rmtree(environment.folder)
    # Called by a Python that lived in the removed folder, we need the one that it was made from.
    python = getattr(sys, "_base_executable", sys.executable)
    made = subprocess.run(
        [python, "-m", "venv", environment.folder], capture_output=True, text=True, check=False
    )
    if made.returncode != 0:
        raise SetUpFailed(f"Python could not make .venv:\n{(made.stdout + made.stderr).strip()}")


def no_venv_module(version: tuple[int, ...] = sys.version_info[:2]) -> str:
    """What to do where the system's Python comes without its `venv` module."""
    return (
        "This Python comes without its `venv` module, so .venv cannot be made.\n"
        f"On Debian and Ubuntu install it:  sudo apt install python{version[0]}.{version[1]}-venv\n"
        "Then call start.py again."
    )


def install(environment: Environment) -> None:
    """Install the project, editable, with all it can use, at the versions in constraints.txt.

    Raises SetUpFailed when pip fails; all that pip said stays in the log.
    """
    command: list[str | Path] = [environment.python, "-m", "pip", "install"]
    command += ["--disable-pip-version-check", "--no-input", "--progress-bar=off", "--retries=2"]
    extras = "plan,postgres,dev" + ("" if sys.version_info >= LAST_READY_PORTS else ",ports")
    command += ["-c", environment.root / "constraints.txt", "-e", f"{environment.root}[{extras}]"]
    with environment.log.open("w", encoding="utf-8") as log:
        failed = follow(command, log.write)
    if failed:
        raise SetUpFailed(why_pip_failed(environment.log))


def follow(command: list[str | Path], keep: Callable[[str], object]) -> int:
    """Run a command, keep each row it says, and show the latest on a terminal; its exit code."""
    begun = time.monotonic()
    terminal = sys.stdout.isatty()
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace"
    ) as running:
        for row in running.stdout or ():
            keep(row)
            if terminal:
                latest = f"{time.monotonic() - begun:4.0f} s  {row.strip()}"
                print("\r" + latest[:ROW_WIDTH].ljust(ROW_WIDTH), end="", flush=True)
    if terminal:
        print("\r" + " " * ROW_WIDTH + "\r", end="", flush=True)
    return running.returncode


def why_pip_failed(log: Path) -> str:
    """Plain words when the network was missing, else the last of what pip said."""
    said = log.read_text(encoding="utf-8")
    if any(sign in said for sign in OFFLINE_SIGNS):
        return (
            "The package registry cannot be reached, so the libraries cannot be fetched.\n"
            "Connect this machine to the network and call start.py again. "
            "Once set up, it needs no network."
        )
    last = "\n".join(said.strip().splitlines()[-8:])
    return f"pip could not install the libraries. It ended with:\n{last}\nAll it said is in {log}"


def compile_sources(environment: Environment) -> None:
    """Byte code for our own modules, even where the surroundings tell Python to write none."""
    folders = [environment.root / "src", environment.root / "tools"]
    subprocess.run([environment.python, "-m", "compileall", "-q", *folders], check=False)
