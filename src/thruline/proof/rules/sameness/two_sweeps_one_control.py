"""Two sweeps that move one control on the same preset."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, a_sweep, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import some_presets
from thruline.sameness.fights import two_sweeps
from thruline.sameness.words import name_of


def _look(case: Case) -> Iterator[Result]:
    for one in two_sweeps(case.held.table):
        if one.is_harmless:
            continue
        unit = case.rig.units[one.column.unit]
        first, second = one.sweeps
        names = f'sweeps "{first.name}" and "{second.name}" both move'
        if first is second:
            names = f'two moves of the sweep "{first.name}" are for'
        yield RULE.finding(
            f"{names} {name_of(one.column)} of {unit.name} "
            f"on {some_presets(one.presets)}: they are up to {one.steps} steps apart",
            first.address_of(one.moves[0]),
            second.address_of(one.moves[1]),
            unit.address.child("control", one.column.part),
            evidence=[
                facts(
                    (first.name, f"{one.apart[0]} with its pedal at {one.places[0]}"),
                    (second.name, f"{one.apart[1]} with its pedal at {one.places[1]}"),
                )
            ],
        )


def _second(control: str) -> str:
    move = f'unit = "delay", control = "{control}", heel = 0, toe = 90'
    return a_sweep("Build", move, pedal="feet.exp-2")


_FIRST = (
    DELAY,
    TO_DELAY,
    a_preset(1, "Storm", 'delay = { program = "2A" }'),
    a_sweep("Swell", 'unit = "delay", control = "mix", heel = 0, toe = 127'),
)

RULE = Rule(
    id=rule_id(__name__),
    title="Two sweeps on one control",
    severity=Severity.FAULT,
    why=(
        "Two pedals, or one pedal twice, send different values to the same control. The last one "
        "wins, so the sound jumps to and fro while the feet move."
    ),
    failing=board(*_FIRST, _second("mix")),
    passing=board(*_FIRST, _second("repeats")),
    look_whole=_look,
)
