"""A unit that presets address, and no cable leads there."""

from collections.abc import Iterator

from thruline.base.address import Address, at
from thruline.path.outcome import Outcome
from thruline.proof.case import Case, asked_by
from thruline.proof.evidence import Evidence, facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.finding import Result, Severity
from thruline.proof.lost_cables import may_lead_to
from thruline.proof.midi_leads import missing_lead
from thruline.proof.rule import Rule, rule_id
from thruline.proof.silences import Silence, silences, way_to
from thruline.proof.understood import some_presets


def _look(case: Case) -> Iterator[Result]:
    for one in silences(case, {Outcome.NOT_PLUGGED_IN, Outcome.NO_SOCKET}):
        if one.cause.jack is not None and may_lead_to(case.rig, one.cause.jack):
            continue
        yield RULE.finding(
            f"nothing arrives at {one.names}: {one.cause.why}",
            _where(one),
            evidence=[_asked(case, one), *_so_far(case, one)],
            mends=missing_lead(case.rig, one.cause),
        )


def _asked(case: Case, one: Silence) -> Evidence:
    """Who wants something of the units that hear nothing."""
    units = {unit.id for unit in one.cut_off}
    presets = [one for one in case.rig.presets if not units.isdisjoint(asked_by(case.rig, one))]
    sweeps = [
        sweep.name for sweep in case.rig.sweeps if units & {move.unit for move in sweep.moves}
    ]
    rows = [("presets", some_presets(presets))] if presets else []
    rows += [("sweeps", ", ".join(sweeps))] if sweeps else []
    return facts(*rows)


def _so_far(case: Case, one: Silence) -> Iterator[Evidence]:
    """The way of the messages, where they get anywhere."""
    if one.cause.hops:
        yield way_to(case, one.cause)


def _where(one: Silence) -> Address:
    """The socket that is empty, in words of an address."""
    jack = one.cause.jack
    return at("unit", one.cause.unit) if jack is None else at("unit", jack.unit).child(jack.socket)


RULE = Rule(
    id=rule_id(__name__),
    title="No cable leads there",
    severity=Severity.FAULT,
    why=(
        "Presets send messages to this unit, and there is no way for them: a MIDI cable is "
        "missing on the plan. The unit stays in whatever state it was left in."
    ),
    failing=board(DELAY, a_preset(1, "Overture", 'delay = { program = "2A" }')),
    passing=board(DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2A" }')),
    look_whole=_look,
)
