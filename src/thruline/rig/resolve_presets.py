"""Presets, sweeps and songs of a document, resolved."""

from collections import Counter
from collections.abc import Mapping

from thruline.base.address import Address, at
from thruline.document.rig_shape import MoveShape, PresetShape, RigShape, SweepShape, Written
from thruline.rig.nearest import gap
from thruline.rig.preset import ControlGoal, Goal, Preset, ProgramGoal, Stored
from thruline.rig.programs import label_to_wire
from thruline.rig.resolve_links import Gaps, read_jack
from thruline.rig.song import Song
from thruline.rig.stored import EXAMPLE, read_stored
from thruline.rig.sweep import Curve, Move, Sweep
from thruline.rig.unit import Unit
from thruline.rig.values import read_value
from thruline.rig.whole import Lack

IN_LOOP: Mapping[str, bool] = {"in": True, "out": False}
"""Words for the state of a relay loop."""


def read_presets(
    document: RigShape, units: Mapping[str, Unit], controller: Unit | None, *, gaps: Gaps
) -> tuple[Preset, ...]:
    """Every preset with its goals; notes units and controls that are not there."""
    seen: Counter[int] = Counter()
    presets = []
    for one in document.preset:
        seen[one.number] += 1
        entry = str(one.number) if seen[one.number] == 1 else f"{one.number}#{seen[one.number]}"
        address = at("preset", entry)
        goals = []
        for unit_id, wanted in (one.__pydantic_extra__ or {}).items():
            unit = units.get(unit_id)
            if unit is None:
                says = f'preset {one.number} names "{unit_id}", which is no unit'
                gaps.append(gap(Lack.UNIT, address.child(unit_id), unit_id, says=says, known=units))
            else:
                goals.append(_goal(unit, wanted, address.child(unit_id), gaps=gaps))
        presets.append(
            Preset(
                number=one.number,
                name=one.name,
                goals=tuple(goals),
                stored=_stored(one, controller, address, gaps=gaps),
                occurrence=seen[one.number],
            )
        )
    return tuple(presets)


def _goal(
    unit: Unit, wanted: Mapping[str, Written] | Written, address: Address, *, gaps: Gaps
) -> Goal:
    """What a preset wants of one unit. A bare word is a loop state or a program label."""
    if not isinstance(wanted, Mapping):
        key = "loop" if str(wanted) in IN_LOOP else "program"
        wanted = {key: wanted}
    program, in_loop, controls = None, None, []
    for key, written in wanted.items():
        if key == "program":
            program = _program(unit, str(written))
        elif key == "loop" and str(written) in IN_LOOP:
            in_loop = IN_LOOP[str(written)]
        elif key == "loop" and key not in unit.chart.controls:
            says = f'a relay loop is "in" or "out", not "{written}"'
            gaps.append(
                gap(Lack.CONTROL, address.child(key), str(written), says=says, known=IN_LOOP)
            )
        elif key in unit.chart.controls:
            control = unit.chart.controls[key]
            controls.append(ControlGoal(control, read_value(control, written)))
        else:
            says = f'{unit.name} has no control "{key}" in its chart'
            gaps.append(
                gap(Lack.CONTROL, address.child(key), key, says=says, known=unit.chart.controls)
            )
    return Goal(unit=unit.id, program=program, controls=tuple(controls), in_loop=in_loop)


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
            says = f'"{text}" is not a message; one reads {EXAMPLE}'
            spot = address.child("messages", f"#{place + 1}")
            gaps.append(gap(Lack.MESSAGE, spot, text, says=says, known=()))
        else:
            messages.append(message)
    return tuple(messages)


def read_sweeps(
    document: RigShape, units: Mapping[str, Unit], presets: tuple[Preset, ...], *, gaps: Gaps
) -> tuple[Sweep, ...]:
    """Every sweep whose pedal is known, with the moves that are."""
    numbers = [preset.number for preset in presets]
    seen: Counter[str] = Counter()
    sweeps = []
    for one in document.sweep:
        seen[one.name] += 1
        entry = one.name if seen[one.name] == 1 else f"{one.name}#{seen[one.name]}"
        address = at("sweep", entry)
        pedal = read_jack(one.pedal, units, address.child("pedal"), gaps=gaps)
        chosen = _chosen(one, numbers, address, gaps=gaps)
        moves = [_move(move, units, address, gaps=gaps) for move in one.moves]
        if pedal is not None:
            kept = tuple(move for move in moves if move is not None)
            sweeps.append(
                Sweep(
                    name=one.name,
                    pedal=pedal,
                    presets=chosen,
                    moves=kept,
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
    for number in one.presets:
        if number not in known:
            says = f'sweep "{one.name}" is on preset {number}, which does not exist'
            names = [str(number) for number in numbers]
            gaps.append(
                gap(Lack.PRESET, address.child("presets"), str(number), says=says, known=names)
            )
    return tuple(number for number in one.presets if number in known)


def _move(
    one: MoveShape, units: Mapping[str, Unit], address: Address, *, gaps: Gaps
) -> Move | None:
    where = address.child("moves", f"{one.unit}>{one.control}")
    unit = units.get(one.unit)
    if unit is None:
        says = f'a sweep moves "{one.unit}", which is no unit'
        gaps.append(gap(Lack.UNIT, where.child("unit"), one.unit, says=says, known=units))
        return None
    control = unit.chart.controls.get(one.control)
    if control is None:
        says = f'{unit.name} has no control "{one.control}" in its chart'
        known = unit.chart.controls
        gaps.append(gap(Lack.CONTROL, where.child("control"), one.control, says=says, known=known))
        return None
    return Move(
        unit=unit.id,
        control=control,
        heel=read_value(control, one.heel),
        toe=read_value(control, one.toe),
        curve=_curve(one),
    )


def _curve(one: MoveShape) -> Curve:
    if isinstance(one.curve, str):
        return Curve(one.curve)
    points = sorted(((travel, share) for travel, share in one.curve), key=lambda point: point[0])
    return Curve("points", tuple(points))


def read_songs(document: RigShape, presets: tuple[Preset, ...], gaps: Gaps) -> tuple[Song, ...]:
    """Every song; notes presets that do not exist."""
    known = {preset.number for preset in presets}
    for one in document.song:
        for number in one.presets:
            if number not in known:
                says = f'song "{one.name}" calls preset {number}, which does not exist'
                address = at("song", one.name).child("presets")
                names = [str(number) for number in sorted(known)]
                gaps.append(gap(Lack.PRESET, address, str(number), says=says, known=names))
    return tuple(
        Song(name=one.name, tempo=one.tempo, presets=tuple(one.presets)) for one in document.song
    )
