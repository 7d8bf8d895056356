"""Presets, sweeps and songs of a document, resolved."""

from collections import Counter
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from thruline.base.address import Address, at, nth
from thruline.document.rig_shape import MoveShape, PresetShape, RigShape, SweepShape, Written
from thruline.rig.controller import Routing
from thruline.rig.nearest import gap, key_gap
from thruline.rig.preset import ControlGoal, Goal, Preset, ProgramGoal, Stored, StoredPause
from thruline.rig.programs import label_to_wire
from thruline.rig.resolve_links import Gaps, read_jack
from thruline.rig.song import Song
from thruline.rig.spans import spans
from thruline.rig.stored import read_stored, why_not
from thruline.rig.sweep import Curve, Move, Sweep
from thruline.rig.unit import Unit
from thruline.rig.values import read_value
from thruline.rig.whole import Lack, Rig

IN_LOOP: Mapping[str, bool] = {"in": True, "out": False}
"""Words for the state of a relay loop."""


@dataclass(frozen=True, slots=True)
class Resolved:
    """A document and the rig that was made of it."""

    document: RigShape
    rig: Rig


def read_presets(
    document: RigShape,
    units: Mapping[str, Unit],
    controller: Unit | None,
    *,
    gaps: Gaps,
    before: Resolved | None = None,
) -> tuple[Preset, ...]:
    """Every preset with its goals; notes units and controls that are not there."""
    known = _whole_presets(before) if before and _same_charts(before, units, controller) else {}
    seen: Counter[int] = Counter()
    presets = []
    for one in document.preset:
        seen[one.number] += 1
        preset = known.get(id(one))
        if preset is None or preset.occurrence != seen[one.number]:
            preset = _preset(one, units, controller, occurrence=seen[one.number], gaps=gaps)
        presets.append(preset)
    return tuple(presets)


def _same_charts(before: Resolved, units: Mapping[str, Unit], controller: Unit | None) -> bool:
    """Whether presets mean what they meant: of a unit, only its chart counts for them."""
    old = before.rig.units
    now, then = controller.id if controller else None, before.rig.controller
    return (
        now == (then.id if then else None)
        and old.keys() == units.keys()
        and all(unit.chart is old[name].chart for name, unit in units.items())
    )


def _whole_presets(before: Resolved) -> Mapping[int, Preset]:
    """The presets in which nothing was missing, by the identity of their part of the document."""
    lacking = {one.address.steps[0] for one in before.rig.unresolved}
    return {
        id(one): preset
        for one, preset in zip(before.document.preset, before.rig.presets, strict=True)
        if preset.address.steps[0] not in lacking
    }


def _preset(
    one: PresetShape,
    units: Mapping[str, Unit],
    controller: Unit | None,
    *,
    occurrence: int,
    gaps: Gaps,
) -> Preset:
    address = at("preset", nth(str(one.number), occurrence))
    goals = []
    beside = one.__pydantic_extra__ or {}
    for unit_id, wanted in beside.items():
        unit = units.get(unit_id)
        if unit is None:
            says = f'preset {one.number} names "{unit_id}", which is no unit'
            where = address.child(unit_id)
            gaps.append(key_gap(Lack.UNIT, where, unit_id, says=says, known=units, beside=beside))
        else:
            goals.append(_goal(unit, wanted, address.child(unit_id), gaps=gaps))
    stored = _stored(one, controller, address, gaps=gaps)
    return Preset(
        number=one.number,
        name=one.name,
        goals=tuple(goals),
        stored=stored,
        unread=len(one.messages or ()) - len(stored or ()),
        occurrence=occurrence,
    )


def _goal(
    unit: Unit, wanted: Mapping[str, Written] | Written, address: Address, *, gaps: Gaps
) -> Goal:
    """What a preset wants of one unit. A bare word is a loop state or a program label."""
    bare = not isinstance(wanted, Mapping)
    if not isinstance(wanted, Mapping):
        key = "loop" if _text(wanted) in IN_LOOP else "program"
        wanted = {key: wanted}
    program, in_loop, controls = None, None, []
    for key, written in wanted.items():
        if key == "program":
            program = _program(unit, _text(written))
        elif key == "loop" and str(written) in IN_LOOP:
            in_loop = IN_LOOP[str(written)]
        elif key == "loop" and key not in unit.chart.controls:
            says = f'a relay loop is "in" or "out", not "{written}"'
            where = address.child(key)
            gaps.append(
                gap(Lack.CONTROL, where, str(written), says=says, known=IN_LOOP, writes="{}")
            )
        elif key in unit.chart.controls:
            control = unit.chart.controls[key]
            controls.append(ControlGoal(control, read_value(control, written)))
        else:
            says = f'{unit.name} has no control "{key}" in its chart'
            gaps.append(
                key_gap(
                    Lack.CONTROL,
                    address.child(key),
                    key,
                    says=says,
                    known=unit.chart.controls,
                    beside=wanted,
                )
            )
    return Goal(unit=unit.id, program=program, controls=tuple(controls), in_loop=in_loop, bare=bare)


def _text(written: Written) -> str:
    """A value as it stands in the document."""
    return str(written).lower() if isinstance(written, bool) else str(written)


def _program(unit: Unit, label: str) -> ProgramGoal:
    numbering = unit.chart.programs
    return ProgramGoal(label, label_to_wire(numbering, label) if numbering else None)


def _stored(
    one: PresetShape, controller: Unit | None, address: Address, *, gaps: Gaps
) -> tuple[Stored, ...] | None:
    if one.messages is None:
        return None
    abilities = controller.chart.abilities if controller else None
    base = abilities.programs_from if abilities else 0
    messages = []
    for place, text in enumerate(one.messages):
        message = read_stored(text, programs_from=base)
        if message is None:
            says = f'"{text}" is not a message: {why_not(text, programs_from=base)}'
            spot = address.child("messages", f"#{place + 1}")
            gaps.append(gap(Lack.MESSAGE, spot, text, says=says, known=()))
            continue
        over = "" if isinstance(message, StoredPause) else message.over
        if over and (why := _no_such_output(over, controller)):
            spot = address.child("messages", f"#{place + 1}")
            gaps.append(gap(Lack.MESSAGE, spot, text, says=f'"{text}": {why}', known=()))
        messages.append(message)
    return tuple(messages)


def _no_such_output(over: str, controller: Unit | None) -> str:
    """Why a message cannot leave by an output; nothing when it can."""
    abilities = controller.chart.abilities if controller else None
    if controller is None or abilities is None or abilities.routing is Routing.ALL:
        return "no output is chosen here: everything is sent over all of them"
    if over in controller.chart.outputs:
        return ""
    return f"the outputs of {controller.name} are {', '.join(controller.chart.outputs)}"


def read_sweeps(
    document: RigShape, units: Mapping[str, Unit], presets: tuple[Preset, ...], *, gaps: Gaps
) -> tuple[Sweep, ...]:
    """Every sweep whose pedal is known, with the moves that are."""
    numbers = [preset.number for preset in presets]
    seen: Counter[str] = Counter()
    sweeps = []
    for one in document.sweep:
        seen[one.name] += 1
        address = at("sweep", nth(one.name, seen[one.name]))
        pedal = read_jack(one.pedal, units, address.child("pedal"), gaps=gaps)
        chosen = _chosen(one, numbers, address, gaps=gaps)
        moves = _moves(one, units, address, gaps=gaps)
        if pedal is not None:
            sweeps.append(
                Sweep(
                    name=one.name,
                    pedal=pedal,
                    presets=chosen,
                    moves=moves,
                    occurrence=seen[one.name],
                )
            )
    return tuple(sweeps)


def _chosen(
    one: SweepShape, numbers: list[int], address: Address, *, gaps: Gaps
) -> tuple[int, ...]:
    if one.presets == "all":
        return tuple(dict.fromkeys(numbers))
    known = set(numbers)
    _note_missing(
        f'sweep "{one.name}" is on', one.presets, known, where=address.child("presets"), gaps=gaps
    )
    return tuple(number for number in one.presets if number in known)


def _moves(
    one: SweepShape, units: Mapping[str, Unit], address: Address, *, gaps: Gaps
) -> tuple[Move, ...]:
    """The moves of which unit and control are known; notes the others."""
    seen: Counter[str] = Counter()
    moves = []
    for move in one.moves:
        name = f"{move.unit}>{move.control}"
        seen[name] += 1
        where = address.child("moves", nth(name, seen[name]))
        found = _move(move, units, where, occurrence=seen[name], gaps=gaps)
        if found is not None:
            moves.append(found)
    return tuple(moves)


def _move(
    one: MoveShape, units: Mapping[str, Unit], where: Address, *, occurrence: int, gaps: Gaps
) -> Move | None:
    unit = units.get(one.unit)
    if unit is None:
        says = f'a sweep moves "{one.unit}", which is no unit'
        where = where.child("unit")
        gaps.append(gap(Lack.UNIT, where, one.unit, says=says, known=units, writes="{}"))
        return None
    control = unit.chart.controls.get(one.control)
    if control is None:
        says = f'{unit.name} has no control "{one.control}" in its chart'
        known, where = unit.chart.controls, where.child("control")
        gaps.append(gap(Lack.CONTROL, where, one.control, says=says, known=known, writes="{}"))
        return None
    return Move(
        unit=unit.id,
        control=control,
        heel=read_value(control, one.heel),
        toe=read_value(control, one.toe),
        curve=_curve(one),
        occurrence=occurrence,
    )


def _curve(one: MoveShape) -> Curve:
    if isinstance(one.curve, str):
        return Curve(one.curve)
    points = sorted(((travel, share) for travel, share in one.curve), key=lambda point: point[0])
    return Curve("points", tuple(points))


def read_songs(document: RigShape, presets: tuple[Preset, ...], gaps: Gaps) -> tuple[Song, ...]:
    """Every song; notes presets that do not exist."""
    known = {preset.number for preset in presets}
    seen: Counter[str] = Counter()
    songs = []
    for one in document.song:
        seen[one.name] += 1
        song = Song(
            name=one.name,
            tempo=one.tempo,
            presets=tuple(one.presets),
            occurrence=seen[one.name],
        )
        where = song.address.child("presets")
        _note_missing(f'song "{one.name}" calls', one.presets, known, where=where, gaps=gaps)
        songs.append(song)
    return tuple(songs)


def _note_missing(
    says: str, numbers: Iterable[int], known: Collection[int], *, where: Address, gaps: Gaps
) -> None:
    """Note all numbers of presets that do not exist, as one gap: one list names them all."""
    missing = [str(number) for number in dict.fromkeys(numbers) if number not in known]
    if not missing:
        return
    alone, found = len(missing) == 1, ", ".join(missing)
    which = f"preset {found}, which does" if alone else f"presets {found}, which do"
    there = f"there are presets {spans(known)}" if len(known) > 1 else "there is only one"
    says = f"{says} {which} not exist; {there if known else 'there are none'}"
    gaps.append(gap(Lack.PRESET, where, found, says=says, known=()))
