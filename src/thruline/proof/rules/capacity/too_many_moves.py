"""One pedal that would have to move more controls than its input can."""

from collections import defaultdict
from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_sweep, board
from thruline.proof.finding import Result, Severity
from thruline.proof.pedals import input_of
from thruline.proof.rule import Rule, rule_id
from thruline.rig.cable import Jack
from thruline.rig.sweep import Sweep


def _look(case: Case) -> Iterator[Result]:
    worst: dict[Jack, tuple[int, int, list[Sweep]]] = {}
    for (jack, number), sweeps in _by_pedal_and_preset(case).items():
        moves = sum(len(sweep.moves) for sweep in sweeps)
        if moves > worst.get(jack, (0, 0, []))[0]:
            worst[jack] = (moves, number, sweeps)
    for jack, (moves, number, sweeps) in worst.items():
        able = input_of(case.rig, sweeps[0])
        if able is not None and moves > able.moves:
            names = " and ".join(f'"{sweep.name}"' for sweep in sweeps)
            yield RULE.finding(
                f"on preset {number} the pedal on {jack.socket} would have to move {moves} "
                "controls "
                f"for sweep {names}; the input can move {able.moves}",
                *(sweep.address for sweep in sweeps),
                evidence=[
                    facts(
                        *(
                            (
                                sweep.name,
                                ", ".join(f"{m.unit} {m.control.name}" for m in sweep.moves),
                            )
                            for sweep in sweeps
                        )
                    )
                ],
            )


def _by_pedal_and_preset(case: Case) -> dict[tuple[Jack, int], list[Sweep]]:
    found: dict[tuple[Jack, int], list[Sweep]] = defaultdict(list)
    for sweep in case.rig.sweeps:
        for number in sweep.presets:
            found[sweep.pedal, number].append(sweep)
    return found


_MOVES = (
    'unit = "delay", control = "mix", heel = 0, toe = 100',
    'unit = "delay", control = "repeats", heel = 0, toe = 100',
    'unit = "delay", control = "level", heel = 0, toe = 100',
)
_PRESET = '[[preset]]\nnumber = 1\nname = "Overture"\n'

RULE = Rule(
    id=rule_id(__name__),
    title="Too many moves for one pedal",
    severity=Severity.FAULT,
    why=(
        "A controller can map one pedal to so many controls and no more. The others would stand "
        "still while the foot moves."
    ),
    failing=board(
        DELAY,
        TO_DELAY,
        _PRESET,
        a_sweep("Swell", *_MOVES, pedal="feet.exp"),
        controller="quarrenden-three",
    ),
    passing=board(
        DELAY,
        TO_DELAY,
        _PRESET,
        a_sweep("Swell", *_MOVES[:2], pedal="feet.exp"),
        controller="quarrenden-three",
    ),
    look_whole=_look,
)
