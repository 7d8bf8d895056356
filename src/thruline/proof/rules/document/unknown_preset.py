"""A song or a sweep calls a preset that does not exist."""

from collections.abc import Iterator
from dataclasses import replace

from thruline.base.edit import Plain, remove, set_to
from thruline.proof.case import Case
from thruline.proof.example_boards import a_preset, a_song, board
from thruline.proof.finding import Finding, Mend, Result, Severity
from thruline.proof.gaps import gap_findings
from thruline.proof.rule import Rule, rule_id
from thruline.rig.song import Song
from thruline.rig.sweep import Sweep
from thruline.rig.whole import Lack


def _look(case: Case) -> Iterator[Result]:
    for finding in gap_findings(case, RULE, {Lack.PRESET}):
        yield replace(finding, mends=tuple(_mends(case, finding)))


def _mends(case: Case, finding: Finding) -> Iterator[Mend]:
    """Leave out the numbers that do not exist, or the whole caller where none remains."""
    where = finding.where[0]
    known = {preset.number for preset in case.rig.presets}
    callers: list[tuple[Song | Sweep, str]]
    callers = [(song, f'song "{song.name}"') for song in case.rig.songs]
    callers += [(sweep, f'sweep "{sweep.name}"') for sweep in case.rig.sweeps]
    for caller, name in callers:
        kept: list[Plain] = [number for number in caller.presets if number in known]
        if caller.address == where.parent and kept:
            says = f"Leave out what does not exist: {', '.join(map(str, kept))} remain"
            yield Mend(says, (set_to(where, kept),))
        elif caller.address == where.parent:
            yield Mend(f"Take the {name} out", (remove(caller.address),))


RULE = Rule(
    id=rule_id(__name__),
    title="A preset that does not exist",
    severity=Severity.FAULT,
    why=(
        "A song of the setlist or a sweep calls a preset number that the rig does not have. "
        "On stage the press goes nowhere, or to whatever the controller happens to hold "
        "there."
    ),
    failing=board(a_preset(1, "Overture"), a_song("Act one", "[2]")),
    passing=board(a_preset(1, "Overture"), a_song("Act one", "[1]")),
    look_whole=_look,
)
