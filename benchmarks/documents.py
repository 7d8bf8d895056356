"""How long documents take, from a rig of 128 presets to 10 MB, and a long walk through damage.

    python benchmarks/documents.py [--seconds 10] [--seed 1] [--quick]

Times are the best of some runs, in milliseconds of processor time. The walk then parses and
changes damaged documents for so many seconds and stops at the first that brings out anything but
BadDocument (or CannotUse for an edit). Exit code 1 when one does. `--quick` leaves out what is
large and walks for half a second: enough to see that all of this still runs.
"""

import argparse
import random
import sys
import time
from collections.abc import Callable
from typing import Any

from thruline.base.address import read_address
from thruline.base.edit import Edit, add_to, remove, set_to
from thruline.base.errors import CannotUse
from thruline.document.change import apply
from thruline.document.parse import parse
from thruline.document.places import places
from thruline.document.problems import BadDocument
from thruline.document.rig_shape import RigShape
from thruline.document.write import document_text


def rig(presets: int, *, units: int = 12, about: int = 0) -> str:
    """A rig document of so many presets, each with a goal for every unit."""
    data: dict[str, Any] = {
        "format": 1,
        "rig": {"name": "Made", "controller": "unit-0"},
        "unit": [
            {
                "id": f"unit-{n}",
                "chart": "bramley-delay",
                "channel": n + 1,
                "settings": {"midi-out": "thru", "program-receive": "on"},
                "place": {"x": n * 50, "y": 40, "turn": 0},
            }
            for n in range(units)
        ],
        "cable": [
            {"from": f"unit-{n}.midi-out", "to": f"unit-{n + 1}.midi-in", "ends": "din5/din5"}
            for n in range(units - 1)
        ],
        "preset": [preset(number, units, about) for number in range(presets)],
    }
    return document_text(data)


def preset(number: int, units: int, about: int) -> dict[str, Any]:
    """One preset of a made rig."""
    goals = {
        f"unit-{n}": {"program": f"{number % 32}B", "mix": "50%", "repeats": n * 3}
        for n in range(units)
    }
    return {"number": number, "name": f"Preset {number}", "about": "x" * about, **goals}


def refusal(text: str | bytes) -> BadDocument | None:
    """Why a document cannot be used; None when it can."""
    try:
        parse(text, RigShape, file="made.rig.toml")
    except BadDocument as bad:
        return bad
    return None


QUICK_CHARACTERS = 300_000
"""The longest document of a quick run."""


def best(work: Callable[[], object], runs: int) -> float:
    """The least processor time of some runs, in milliseconds."""
    times = []
    for _ in range(runs):
        begun = time.process_time()
        work()
        times.append(time.process_time() - begun)
    return min(times) * 1000


def measure(longest: float) -> None:
    """Print a row for each document that is not longer than `longest` characters."""
    print(f"{'document':<26}{'bytes':>12}{'parse':>10}{'places':>10}{'change':>10}   ms")
    edit = set_to(read_address("unit[unit-3].channel"), 9)
    for name, text in (
        ("128 presets", rig(128, units=11)),
        ("1 MB", rig(1280, units=11)),
        ("10,000 presets", rig(10_000, units=9)),
        ("10 MB", rig(12_500, units=11)),
        ("10 MB, one long row", rig(1, about=2000) + f"# {'x' * 10_000_000}"),
    ):
        if len(text) > longest:
            continue
        runs = 7 if len(text) < 500_000 else 1
        found = [
            best(lambda text=text: parse(text, RigShape, file="f"), runs),
            best(lambda text=text: places(text), runs),
            best(lambda text=text: apply(text, [edit]), runs),
        ]
        print(f"{name:<26}{len(text):>12,}" + "".join(f"{ms:>10,.1f}" for ms in found))
    print()
    print(f"{'refused document':<26}{'bytes':>12}{'told in':>10}{'problems':>10}")
    for name, text in refused():
        if len(text) > longest:
            continue
        begun = time.process_time()
        bad = refusal(text)
        took = (time.process_time() - begun) * 1000
        count = 0 if bad is None else len(bad.problems) + bad.more
        print(f"{name:<26}{len(text):>12,}{took:>10,.1f}{count:>10,}")
    print()


def refused() -> list[tuple[str, str]]:
    """Documents that must be refused quickly, however large or odd."""
    large = rig(12_500, units=11)
    return [
        ("arrays 10,000 deep", "a = " + "[" * 10_000 + "]" * 10_000),
        ("tables 10,000 deep", "a = " + "{ a = " * 10_000 + "1" + " }" * 10_000),
        ("key of 1,000,000 parts", "a." * 1_000_000 + "b = 1"),
        ("header of 100,000 parts", f"[{'a.' * 100_000}b]"),
        ("10 MB, slip at the end", f"{large}a = b\n"),
        ("10 MB, slip in each preset", large.replace("\nname =", "\nnmae =")),
        ("1 MB of unknown keys", "".join(f"key-{n} = {n}\n" for n in range(55_000))),
        ("128 presets, 128 slips", rig(128, units=11).replace('"50%"', "50%", 128)),
    ]


PIECES = (
    "=",
    ".",
    '"',
    "'",
    "[",
    "]",
    "{",
    "}",
    ",",
    "#",
    "\n",
    "\r",
    "\\",
    "\0",
    "\ufeff",
    "é",
    "0",
)


def damaged(text: str, chance: random.Random) -> str | bytes:
    """The text with a few slips, cut short, or with some bytes changed."""
    for _ in range(chance.randint(1, 4)):
        at = chance.randrange(len(text) + 1)
        text = (
            text[:at]
            + chance.choice(PIECES) * chance.randint(0, 2)
            + text[at + chance.choice((0, 0, 1, 9)) :]
        )
    match chance.randrange(4):
        case 0:
            return text[: chance.randrange(len(text) + 1)]
        case 1:
            content = bytearray(text.encode())
            content[chance.randrange(len(content))] = chance.randrange(256)
            return bytes(content)
        case 2:
            return chance.randbytes(chance.randrange(200))
        case _:
            return text


def edits(chance: random.Random) -> list[Edit]:
    """One or two edits of a made rig; some have nothing to work on."""
    unit = f"unit[unit-{chance.randrange(5)}]"
    choices = [
        set_to(read_address(f"{unit}.channel"), chance.randrange(20)),
        set_to(read_address(f"{unit}.settings.new"), "on"),
        set_to(read_address("audio.path"), ["guitar", "amp"]),
        add_to(read_address("song"), {"name": "Act one", "presets": [1]}),
        add_to(read_address("preset"), {"number": 99, "name": "New"}),
        remove(read_address(unit)),
        remove(read_address(f"preset[{chance.randrange(4)}].unit-1.mix")),
    ]
    return chance.sample(choices, chance.randint(1, 2))


def walk(seconds: float, seed: int) -> None:
    """Read and change damaged documents. Raises whatever should not have come out of one."""
    chance = random.Random(seed)
    sound = [rig(presets, units=4) for presets in (0, 1, 3)]
    ends = time.monotonic() + seconds
    read = refusals = changed = 0
    while time.monotonic() < ends:
        source = damaged(chance.choice(sound), chance)
        read += 1
        refusals += refusal(source) is not None
        if isinstance(source, str):
            try:
                apply(source, edits(chance))
            except CannotUse:
                continue
            changed += 1
    print(f"{read:,} damaged documents: {refusals:,} refused in words, {changed:,} changed")


def main() -> int:
    """Measure, then walk."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--seconds", type=float, default=10)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--quick", action="store_true", help="only see that it runs")
    chosen = options.parse_args()
    measure(longest=QUICK_CHARACTERS if chosen.quick else float("inf"))
    walk(0.5 if chosen.quick else chosen.seconds, chosen.seed)
    return 0


if __name__ == "__main__":
    sys.exit(main())
