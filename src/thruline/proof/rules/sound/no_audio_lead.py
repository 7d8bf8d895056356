"""A step of the audio path without a lead, on a board whose audio leads are listed."""

from collections.abc import Iterator

from thruline.base.address import at
from thruline.base.edit import add_to
from thruline.path.words import jack_in_words
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_cable, a_unit, an_audio_path, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.lost_cables import may_lead_to
from thruline.proof.rule import Rule, rule_id
from thruline.rig.cable import Cable, Jack
from thruline.rig.socket import SocketKind
from thruline.rig.sound_steps import SoundStep, sound_plug, sound_steps
from thruline.rig.whole import Rig

_AUDIO = (SocketKind.AUDIO_IN, SocketKind.AUDIO_OUT)


def _look(case: Case) -> Iterator[Result]:
    rig = case.rig
    leads = [
        cable
        for cable in rig.cables
        if _kind(rig, cable.start) in _AUDIO and _kind(rig, cable.stop) in _AUDIO
    ]
    if not leads:
        return
    for step in sound_steps(rig):
        if not step.starts or not step.stops:
            yield _untold(rig, step)
        elif not (_is_there(rig, step, leads) or any(may_lead_to(rig, one) for one in step.stops)):
            where = at("audio").child("path").child(step.one, step.other)
            starts, stops = (_any(rig, jacks) for jacks in (step.starts, step.stops))
            yield RULE.finding(
                f"no lead brings the sound from {starts} to {stops}",
                where,
                evidence=[facts(*_goes(rig, step, leads))],
                mends=_mends(rig, step),
            )


def _is_there(rig: Rig, step: SoundStep, leads: list[Cable]) -> bool:
    """Whether a lead makes the step, or one that is plugged the wrong way was meant to."""
    ends = {*step.starts, *step.stops}
    for lead in leads:
        pair = (lead.start, lead.stop)
        if any(a in step.starts and b in step.stops for a, b in (pair, pair[::-1])):
            return True
        if _kind(rig, lead.start) is _kind(rig, lead.stop) and ends & {*pair}:
            return True
    return False


def _goes(rig: Rig, step: SoundStep, leads: list[Cable]) -> Iterator[tuple[str, str]]:
    """What is plugged into the sockets of the step instead."""
    for jack in (*step.starts, *step.stops):
        others = [
            str(lead.stop if lead.start == jack else lead.start)
            for lead in leads
            if jack in (lead.start, lead.stop)
        ]
        yield jack_in_words(rig.units, jack), f"to {others[0]}" if others else "nothing plugged in"


def _any(rig: Rig, jacks: tuple[Jack, ...]) -> str:
    return " or ".join(jack_in_words(rig.units, jack) for jack in jacks)


def _kind(rig: Rig, jack: Jack) -> SocketKind:
    return rig.units[jack.unit].chart.sockets[jack.socket].kind


def _untold(rig: Rig, step: SoundStep) -> Result:
    bare, kind = (step.other, "input") if step.starts else (step.one, "output")
    unit = rig.units[bare]
    return RULE.untold(
        f"whether a lead brings the sound from {rig.units[step.one].name} to "
        f"{rig.units[step.other].name} cannot be told",
        unit.address,
        lacks=f"the audio {kind} in chart {unit.chart.id}",
    )


def _mends(rig: Rig, step: SoundStep) -> Iterator[Mend]:
    """A lead between the two sockets, where there is no choice and both are free."""
    used = {jack for cable in rig.cables for jack in (cable.start, cable.stop)}
    if len(step.starts) == len(step.stops) == 1 and used.isdisjoint((*step.starts, *step.stops)):
        start, stop = step.starts[0], step.stops[0]
        ends = f"{sound_plug(rig, start)}/{sound_plug(rig, stop)}"
        lead = {"from": str(start), "to": str(stop), "ends": ends}
        yield Mend(f"Put a lead from {start} to {stop}", (add_to(at("cable"), lead),))


_UNITS = (
    a_unit("delay", "bramley-delay", "channel = 3"),
    a_unit("reverb", "pippin-reverb", "channel = 4"),
    a_unit("drive", "russet-drive"),
    an_audio_path("guitar", "drive", "delay", "reverb", "amplifier"),
    a_cable("drive.output", "delay.input", ends="ts-6.35/ts-6.35"),
)

RULE = Rule(
    id=rule_id(__name__),
    title="A gap in the way of the sound",
    severity=Severity.FAULT,
    why=(
        "The audio path says in which order the sound meets the units, and the leads that are "
        "listed do not bring it there. The board is silent, or sounds in another order. Where a "
        "rig lists no audio leads at all, nothing is said of them."
    ),
    failing=board(*_UNITS),
    passing=board(*_UNITS, a_cable("delay.output", "reverb.input", ends="ts-6.35/ts-6.35")),
    look_whole=_look,
)
