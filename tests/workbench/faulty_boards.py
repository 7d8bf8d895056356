"""Small faulty boards: with the examples of the rules they get each kind of mend offered."""

import ast
from collections.abc import Iterator, Mapping
from pathlib import Path
from types import MappingProxyType

from thruline import proof
from thruline.proof.example_boards import (
    DELAY,
    TO_DELAY,
    a_cable,
    a_power_lead,
    a_preset,
    a_sweep,
    a_unit,
    board,
)
from thruline.proof.rule import Example
from thruline.proof.rulebook import rulebook

_LOOPER = a_unit("looper", "jonagold-looper", "channel = 5")
_MIX = 'unit = "delay", control = "mix", heel = 0, toe = 100'
_STRAY = 'unit = "delay", control = "qqq", heel = 0, toe = 100'

_FUZZ = """format = 1
[chart]
id = "medlar-fuzz"
maker = "Medlar"
model = "Fuzz"
kind = "drive"
[[socket]]
id = "power-in"
kind = "power-in"
connector = "barrel-2.1"
[power]
millivolts = 9000
polarity = "centre-positive"
milliamps = 20
"""

MORE: Mapping[str, Example] = MappingProxyType(
    {
        "beyond the choices": board(
            a_unit("warble", "fiesta-modulation", "channel = 6"),
            a_preset(1, "Cue", "warble = { type = 140 }"),
        ),
        "built so": board(_LOOPER, a_preset(1, "Cue", 'looper = { program = "1", level = 9 }')),
        "many places": board(
            DELAY, TO_DELAY, *(a_preset(n, f"Cue {n}", "dealy = { mix = 9 }") for n in (1, 2, 3))
        ),
        "reversed beside others": board(
            a_unit("shared", "idared-supply"),
            a_unit("apart", "elstar-supply"),
            a_unit("drive", "russet-drive"),
            a_unit("fuzz", "medlar-fuzz"),
            a_power_lead("shared.outlet-1", "drive.power-in"),
            a_power_lead("shared.outlet-2", "fuzz.power-in", 'wiring = "crossed"'),
            charts=(_FUZZ,),
        ),
        "reversed for nothing": board(
            a_unit("supply", "elstar-supply"),
            DELAY,
            a_power_lead("supply.outlet-1", "delay.power-in", 'wiring = "crossed"'),
        ),
        "sent over nothing": board(
            a_unit("delay", "bramley-delay", "channel = 3", 'sent-over = "exp-1"'),
            controller="pearmain-ten",
        ),
        "stray move": board(DELAY, TO_DELAY, a_sweep("Swell", _MIX, _STRAY)),
        "stray sweep": board(DELAY, TO_DELAY, a_sweep("Swell", _STRAY)),
        "switched outlet": board(
            a_unit("supply", "blenheim-supply", 'settings = { volts-2 = "18 V" }'),
            DELAY,
            a_power_lead("supply.outlet-2", "delay.power-in"),
        ),
        "turned cable": board(DELAY, a_cable("delay.midi-in", "feet.midi-out-1")),
        "twins": board(DELAY, a_unit("delay", "pippin-reverb", "channel = 4"), TO_DELAY),
    }
)
"""What the examples of the rules do not show, by a name for it."""


def faulty_boards() -> Mapping[str, Example]:
    """The failing example of every rule, by the rule's id, and the further boards."""
    return {**{rule.id: rule.failing for rule in rulebook()}, **MORE}


def kinds_of_mend() -> Iterator[tuple[str, range]]:
    """Every place in the code where a mend is made: its file, and its rows."""
    for file in Path(proof.__file__).parent.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Mend":
                yield str(file), range(node.lineno, (node.end_lineno or node.lineno) + 1)
