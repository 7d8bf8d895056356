"""Leftovers of a case, told for people, and the edits that end them."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence

from thruline.base.address import Address
from thruline.base.edit import Edit, Plain, remove, set_to
from thruline.proof.case import Case
from thruline.proof.evidence import Evidence, two_presets
from thruline.proof.finding import Finding, Mend, Untold
from thruline.proof.rule import Rule
from thruline.proof.spoiled import is_spoiled
from thruline.proof.understood import some_presets
from thruline.rig.preset import Goal, Preset
from thruline.rig.unit import Unit
from thruline.rig.values import Value
from thruline.sameness.codes import is_wire
from thruline.sameness.columns import Column, ColumnKind
from thruline.sameness.held import Cause
from thruline.sameness.leftovers import Leftover, leftovers, unclear
from thruline.sameness.witness import History
from thruline.sameness.words import in_words, name_of

MOST_SHOWN = 4


def _no_mends(_one: Leftover, _unit: Unit) -> Iterable[Mend]:
    return ()


def left_over(
    case: Case, kind: ColumnKind, cause: Cause | None = None
) -> Iterator[tuple[Unit, Leftover]]:
    """Leftovers of one kind (and cause), each with its unit.

    One that stands only in presets which could not be read whole is no finding: it follows.
    """
    for one in case.kept("leftovers", lambda: leftovers(case.held)):
        if one.column.kind is not kind or cause not in (None, one.cause):
            continue
        unit, part = one.column.unit, one.column.part
        if not all(is_spoiled(case, preset, unit=unit, part=part) for preset in one.left_in):
            yield case.rig.units[unit], one


def left_over_findings(
    case: Case,
    rule: Rule,
    *,
    kind: ColumnKind,
    cause: Cause | None = None,
    mends: Callable[[Leftover, Unit], Iterable[Mend]] = _no_mends,
) -> Iterator[Finding]:
    """One finding of the rule for each leftover of one kind (and cause)."""
    for unit, one in left_over(case, kind, cause):
        yield rule.finding(
            sentence(one, unit),
            where(one),
            evidence=[evidence(one, unit)],
            mends=mends(one, unit),
        )


def where(one: Leftover) -> Address:
    """What a leftover is about, as an address: the unit and the part of it."""
    unit = Address(()).child("unit", one.column.unit)
    return (
        unit.child("control", one.column.part)
        if one.column.kind is ColumnKind.CONTROL
        else unit.child(one.column.part)
    )


def sentence(one: Leftover, unit: Unit) -> str:
    """`Mix of Bramley Delay is left over in 14 presets`, with an example."""
    told = one.example
    count = len(one.left_in)
    presets = f"preset {one.left_in[0].title}" if count == 1 else f"{count} presets"
    first, second = (in_words(each.code, one.column, unit) for each in (told.first, told.second))
    return (
        f"{name_of(one.column)} of {unit.name} is left over in {presets}: in "
        f"{told.entered.title} it is "
        f"{first} coming from {_from(told.first)}, and {second} coming from {_from(told.second)}"
    )


def _from(history: History) -> str:
    if history.preset is None:
        return "power-up"
    if history.sweep is None:
        return history.preset.title
    return f'{history.preset.title} with the pedal of "{history.sweep.name}" at {history.place}'


def evidence(one: Leftover, unit: Unit) -> Evidence:
    """Who sets it, who leaves it, and what then differs."""
    rows = [
        (f"{sets.preset.title} sets it to", in_words(sets.code, one.column, unit))
        for sets in one.sent_by[:MOST_SHOWN]
    ]
    rows += [
        (
            f'sweep "{moves.sweep.name}" moves it',
            f"{moves.low} to {moves.high} on {some_presets(moves.presets)}",
        )
        for moves in one.moved_by
    ]
    if one.loaded_by:
        rows.append(
            (
                "its program brings it along in",
                some_presets([sets.preset for sets in one.loaded_by]),
            )
        )
    rows.append(("left as it was in", some_presets(one.left_in)))
    return two_presets(*rows)


def set_everywhere(one: Leftover, unit: Unit) -> Iterator[Mend]:
    """Set the control in every preset that leaves it.

    To what it powers up with, which those who never thought of it have been hearing; or else to
    the value that others use most.
    """
    control = one.column.control
    values = Counter(sets.code for sets in one.sent_by if is_wire(sets.code))
    for moves in one.moved_by:
        values.setdefault(moves.low, 0)
    if control is None or not values:
        return
    most_used = max(values, key=lambda code: (values[code], -code))
    value = one.power_up if is_wire(one.power_up) else most_used
    shown = in_words(value, one.column, unit)
    edits = [goal_with(preset, unit, key=control.id, value=value) for preset in one.left_in]
    count = _those(edits)
    stored = [preset for preset in one.left_in if preset.stored is not None]
    edits += [remove(preset.address.child("messages")) for preset in stored]
    again = f" and program {some_presets(stored)} again" if stored else ""
    yield Mend(f"Set {control.name} to {value} ({shown}) in {count}{again}", tuple(edits))


def set_loop(case: Case, one: Leftover) -> Iterator[Mend]:
    """Put the loop out, or in, in every preset that leaves it as it was."""
    audio = case.rig.audio
    hung = [
        stage.inside[0]
        for stage in (audio.stages if audio else ())
        if stage.inside and (stage.unit, stage.loop) == (one.column.unit, one.column.part)
    ]
    if not hung:
        return
    unit = case.rig.units[hung[0]]
    for word in ("out", "in"):
        edits = [goal_with(preset, unit, key="loop", value=word) for preset in one.left_in]
        yield Mend(f'Put {unit.name} "{word}" in {_those(edits)}', tuple(edits))


def _those(edits: Sequence[Edit]) -> str:
    return "that preset" if len(edits) == 1 else f"those {len(edits)} presets"


def goal_with(preset: Preset, unit: Unit, *, key: str, value: Plain) -> Edit:
    """The edit that adds one wish to what a preset wants of a unit, however that is written."""
    goal = preset.goal_for(unit.id)
    address = preset.address.child(unit.id)
    if goal is not None and not goal.bare:
        return set_to(address.child(key), value)
    return set_to(address, {**_plain(goal), key: value})


def _plain(goal: Goal | None) -> dict[str, Plain]:
    """A goal as it would be written in full."""
    if goal is None:
        return {}
    wanted: dict[str, Plain] = {}
    if goal.program is not None:
        wanted["program"] = goal.program.label
    if goal.in_loop is not None:
        wanted["loop"] = "in" if goal.in_loop else "out"
    for one in goal.controls:
        if isinstance(one.value, Value):
            wanted[one.control.id] = one.value.wire
    return wanted


def untold(case: Case, rule: Rule, kind: ColumnKind) -> Iterator[Untold]:
    """What cannot be told about leftovers, once for each unit and control."""
    for one in case.kept("unclear", lambda: unclear(case.held)):
        at_part = {"unit": one.column.unit, "part": one.column.part}
        read = [preset for preset in one.presets if not is_spoiled(case, preset, **at_part)]
        if one.column.kind is not kind or not read:
            continue
        unit = case.rig.units[one.column.unit]
        yield rule.untold(
            f"what {name_of(one.column)} of {unit.name} is at in {some_presets(one.presets)} "
            "cannot be told",
            unit.address.child("control", one.column.part),
            lacks=_lacks(one.column, unit),
        )


def _lacks(column: Column, unit: Unit) -> str:
    return f"stored or settle of control {column.part} in chart {unit.chart.id}"
