"""What may be wrong with expression pedals and with relay loops."""

from collections.abc import Iterator
from dataclasses import replace
from types import MappingProxyType

from thruline.find.kinds import Kind
from thruline.find.meant import Meant
from thruline.find.suspect import Suspect
from thruline.proof.pedals import inputs_in_use, wiring_read
from thruline.rig.chart import Expression
from thruline.rig.sweep import Curve, share
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig

HALF = 0.5
"""Half travel, where tapers differ most."""


def pedal_suspects(meant: Meant) -> Iterator[Suspect]:
    """For every expression input with a pedal in it."""
    for unit, one, pedal in inputs_in_use(meant.rig):
        on = f"{unit.id}.{one.socket}"
        for kind, shows in _ways(unit, pedal):
            yield Suspect(
                kind=kind,
                on=on,
                what=pedal.name,
                shows=MappingProxyType({f"pedal {on}": shows}),
            )
        wired = replace(
            _suspect(Kind.PEDAL_OTHER_WIRING, on, pedal, "rushes"),
            odds=1.0 if wiring_read(unit, one) is not None else 2.0,
        )
        yield wired
        lead = _suspect(Kind.PEDAL_MONO_LEAD, on, pedal, "still")
        yield replace(lead, shows=MappingProxyType({**lead.shows, f"lead {on}": "mono"}))
        out = _suspect(Kind.PEDAL_UNPLUGGED, on, pedal, "still")
        yield replace(out, shows=MappingProxyType({**out.shows, f"lead {on}": "out"}))


def _suspect(kind: Kind, on: str, pedal: Unit, shows: str) -> Suspect:
    return Suspect(
        kind=kind, on=on, what=pedal.name, shows=MappingProxyType({f"pedal {on}": shows})
    )


def _ways(unit: Unit, pedal: Unit) -> Iterator[tuple[Kind, str]]:
    """Kinds of fault and what three readings of the pedal show: heel, half way, toe."""
    planned = pedal.chart.expression
    yield Kind.PEDAL_REVERSED, "backwards"
    if planned is None:
        return
    for kind, other in (
        (Kind.PEDAL_NOT_CALIBRATED, replace(planned, lowest=12, highest=106)),
        (Kind.PEDAL_TAPER, replace(planned, taper=_other_taper(planned))),
    ):
        yield kind, _shape(planned, other)
    yield Kind.PEDAL_WORN, "flickers"
    if any(one.on_recall for one in unit.chart.pedals.values()):
        yield Kind.PEDAL_JUMPS, "jumps"


def _other_taper(planned: Expression) -> str:
    return "audio" if planned.taper in (None, "linear") else "linear"


def readings(pedal: Expression) -> tuple[int, int, int]:
    """What an uncalibrated input reads at heel, half way and toe."""
    curve = Curve(pedal.taper or "linear")
    span = pedal.highest - pedal.lowest
    return pedal.lowest, pedal.lowest + round(span * share(curve, HALF)), pedal.highest


def _shape(planned: Expression, found: Expression) -> str:
    """How three readings differ from the planned ones."""
    meant, seen = readings(planned), readings(found)
    if (seen[0], seen[2]) != (meant[0], meant[2]):
        return "short-ends"
    return "off-half-way" if seen[1] != meant[1] else "right"


def loop_suspects(meant: Meant) -> Iterator[Suspect]:
    """For every relay loop that the sound goes through."""
    rig = meant.rig
    for unit, loop in loops_in_use(rig):
        on = f"{unit.id}.{loop}"
        what = f"{unit.name} {loop}"
        for kind, sound, bridged in (
            (Kind.LOOP_CONTACT, "crackles", "sound"),
            (Kind.LOOP_SWAPPED, "silent", "other"),
            (Kind.LOOP_LEAD_OPEN, "silent", "silent"),
            (Kind.LOOP_THUMPS, "thumps", "sound"),
            (Kind.LOOP_TOO_EARLY, "bursts", "sound"),
        ):
            shows = {f"loop {on}": sound, f"bridge {on}": bridged}
            yield Suspect(kind=kind, on=on, what=what, shows=MappingProxyType(shows))


def loops_in_use(rig: Rig) -> Iterator[tuple[Unit, str]]:
    """The relay loops on the audio path."""
    for stage in rig.audio.stages if rig.audio is not None else ():
        unit = rig.units.get(stage.unit or "")
        if unit is not None and stage.loop is not None and stage.inside:
            yield unit, stage.loop
