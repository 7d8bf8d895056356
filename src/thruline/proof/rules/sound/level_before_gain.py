"""A sweep that evens out a gain before the gain instead of after it."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_cable, a_preset, a_sweep, a_unit, an_audio_path, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.sweep import Move, Sweep, values_of


def _look(case: Case) -> Iterator[Result]:
    if case.rig.audio is None:
        return
    place = {unit: number for number, unit in enumerate(case.rig.audio.units)}
    for sweep in case.rig.sweeps:
        for drive in _moves(sweep, "drive"):
            for level in _moves(sweep, "level"):
                known = drive.unit in place and level.unit in place
                if known and _against(drive, level) and place[level.unit] < place[drive.unit]:
                    before, after = case.rig.units[level.unit], case.rig.units[drive.unit]
                    yield RULE.finding(
                        f'sweep "{sweep.name}" raises {drive.control.name} of {after.name} and '
                        "lowers "
                        f"{level.control.name} of {before.name}, which comes before it: that "
                        "changes "
                        "the gain again and does not even out the loudness",
                        sweep.address_of(level),
                        sweep.address_of(drive),
                        evidence=[facts(("audio path", " > ".join(place)))],
                    )


def _moves(sweep: Sweep, gain: str) -> Iterator[Move]:
    return (move for move in sweep.moves if move.control.gain == gain)


def _against(one: Move, other: Move) -> bool:
    """Whether the two run against each other from heel to toe."""
    first, second = values_of(one), values_of(other)
    if not first or not second:
        return False
    return (first[-1] - first[0]) * (second[-1] - second[0]) < 0


_BOARD = (
    a_unit("pre", "egremont-preamp", "channel = 2", 'settings = { midi-out = "thru" }'),
    a_unit("level", "winston-level", "channel = 7"),
    a_cable("feet.midi-out-1", "pre.midi-in"),
    a_cable("pre.midi-out", "level.midi-in"),
    a_preset(1, "Overture", "pre = { program = 1 }", "level = { level = 100 }"),
    a_sweep(
        "Heat",
        'unit = "pre", control = "gain", heel = 20, toe = 100',
        'unit = "level", control = "level", heel = 100, toe = 60',
    ),
)

RULE = Rule(
    id=rule_id(__name__),
    title="Level taken down before the gain",
    severity=Severity.RISK,
    why=(
        "When gain goes up, the level after it must come down to keep the loudness. Taken down "
        "before the distortion it only undoes the gain, and the sound stays as loud as it was."
    ),
    failing=board(*_BOARD, an_audio_path("guitar", "level", "pre", "amp")),
    passing=board(*_BOARD, an_audio_path("guitar", "pre", "level", "amp")),
    look_whole=_look,
)
