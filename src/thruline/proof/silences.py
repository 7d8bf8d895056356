"""Units that presets or sweeps address and that hear nothing, grouped by what stops messages."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from thruline.path.hearing import Heard
from thruline.path.outcome import Outcome, Quality
from thruline.path.silence import why_silent
from thruline.path.unplugged import Break
from thruline.path.words import hops_in_words
from thruline.proof.case import Case
from thruline.proof.evidence import Evidence, way
from thruline.rig.unit import Unit


@dataclass(frozen=True, slots=True)
class Silence:
    """One thing that stops messages, and the units that it cuts off, in board order."""

    cause: Break
    cut_off: tuple[Unit, ...]

    @property
    def names(self) -> str:
        """The units that hear nothing, as part of a sentence."""
        names = [unit.name for unit in self.cut_off]
        return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def silences(case: Case, outcomes: Collection[Outcome]) -> tuple[Silence, ...]:
    """Everything of these outcomes that keeps an addressed unit from hearing the controller."""
    found = case.board.kept("silences", case.addressed, lambda: _all(case))
    return tuple(one for one in found if one.cause.outcome in outcomes)


def _all(case: Case) -> tuple[Silence, ...]:
    controller = case.rig.controller
    if controller is None:
        return ()
    groups: dict[object, tuple[Break, list[Unit]]] = {}
    for unit in addressed(case):
        if case.hearing.hears(controller.id, unit.id) is Heard.YES:
            continue
        causes = why_silent(case.network, case.hearing, source=controller.id, target=unit.id)
        for cause in causes:
            link = cause.link.cables[0].name if cause.link else None
            key = (cause.outcome, cause.jack, link, cause.unit)
            groups.setdefault(key, (cause, []))[1].append(unit)
    return tuple(Silence(cause, tuple(units)) for cause, units in groups.values())


def addressed(case: Case) -> Iterable[Unit]:
    """Units that a preset or a sweep wants something of over MIDI, in board order."""
    names = case.addressed
    return [unit for unit in case.rig.units.values() if unit.id in names]


def is_told(outcome: Outcome) -> bool:
    """Whether the outcome is known."""
    return outcome.quality is not Quality.CANNOT_TELL


def way_to(case: Case, cause: Break) -> Evidence:
    """How far messages get, and what stops them there."""
    rows = []
    if cause.hops:
        rows.append(("as far as", hops_in_words(case.rig.units, cause.hops)))
    return way(*rows, ("there", cause.why))
