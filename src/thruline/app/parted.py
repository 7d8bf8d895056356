"""Sending over several ports: what each stands for, and what units got when one goes."""

from collections.abc import Mapping, Sequence

from thruline.app.send import Step, leaves_by, look_at_outputs
from thruline.bench.several import Took, Way
from thruline.proof.case import Case


def overs_of(ways: Sequence[Way]) -> tuple[str, ...]:
    """The outputs that some ports stand for together; none when one of them stands for all."""
    overs = [way.over for way in ways]
    return () if None in overs else tuple(dict.fromkeys(one for one in overs if one))


def look_at_ways(case: Case, ways: Sequence[Way]) -> None:
    """Raise CannotUse where a port would carry what it must not (see `look_at_outputs`)."""
    for way in ways:
        look_at_outputs(case, [way.over] if way.over is not None else ())


def left_out(case: Case, ways: Sequence[Way]) -> str:
    """The units that none of the ports leads to, in words; empty when there are none."""
    overs = overs_of(ways)
    units = [
        one
        for one in case.rig.units.values()
        if one.id in case.board.routing.over and one.chart.listens
        if one.sent_on is not None and not leaves_by(case, one.id, overs)
    ]
    if not units:
        return ""
    outputs = ", ".join(dict.fromkeys(case.board.routing.over[one.id] for one in units))
    return (
        f"no port stands for {outputs}, so nothing goes to {', '.join(one.name for one in units)}"
    )


def names_of(step: Step) -> Mapping[str, str]:
    """What the units of a step are called."""
    return {one.unit.id: one.unit.name for one in step.shows}


def gone_says(took: Sequence[Took], names: Mapping[str, str]) -> str:
    """What became of a sending in which a port went: what each unit was sent."""
    lost = [one for one in took if one.trouble]
    parts = [f"{one.trouble}. Over {one.way.says} went {_shares(one, names)}" for one in lost]
    if any(one.count for one in lost):
        parts.append("What went over it last may not have arrived")
    whole = [one.way.says for one in took if not one.trouble and one.count == len(one.wanted) > 0]
    if whole:
        parts.append(f"Over {', '.join(whole)} everything went out")
    return ". ".join(parts)


def _shares(took: Took, names: Mapping[str, str]) -> str:
    """How much of what was meant for each unit was handed over."""
    wanted, sent = [one.unit for one in took.wanted], [one.unit for one in took.sent]
    parts = []
    for unit in dict.fromkeys(wanted):
        got, whole = sent.count(unit), wanted.count(unit)
        share = "all" if got == whole else f"{got} of {whole} messages" if got else "nothing"
        parts.append(f"{share} for {names.get(unit or '', 'the board')}")
    return ", ".join(parts) or "nothing"
