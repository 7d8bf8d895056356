"""A symptom in a few words of the trade, as answers to checks.

`delay does nothing`, `reverb one too high`, `everything is dead`, `echo now and then`, `it hums`.
"""

import re
from collections.abc import Iterable, Mapping
from types import MappingProxyType

from thruline.base.errors import CannotUse
from thruline.find.checks import Check
from thruline.find.field import Field
from thruline.find.search import Did, Step
from thruline.find.trials import Trial
from thruline.find.worlds import Seen

_SEEN: Mapping[str, str] = MappingProxyType(
    {
        r"(one|1) (too high|above|up|higher)|next (program|preset|one)": Seen.ONE_ABOVE,
        r"(one|1) (too low|below|down|lower)|previous (program|preset|one)": Seen.ONE_BELOW,
        r"(wrong|another|other|different) (program|preset|sound|patch)": Seen.ANOTHER,
        r"(wrong|other|different) (value|level|mix|knob|setting)s?": Seen.KNOBS_WRONG,
        r"only (the )?(value|knob|control)s?": Seen.KNOBS_ONLY,
        r"nothing|silent|deaf|dead|ignores|does ?n.t|does not|won.t|no (reaction|response|change)"
        r"|stays": Seen.NOTHING,
    }
)
_SOMETIMES = r"now and then|sometimes|comes and goes|intermittent|at times|from time to time"
_ALL = r"\b(everything|all|every unit|whole board|the board)\b"
_LOOKS: tuple[tuple[str, Trial, str], ...] = (
    (r"dark|no power|no light|not lit", Trial.POWER, "dark"),
    (r"whine", Trial.NOISE, "whine"),
    (r"hum", Trial.NOISE, "hum"),
    (r"computer noise|usb noise", Trial.NOISE, "usb-noise"),
    (r"tempo (is )?(wrong|free)|no clock|not (in|follow).*(tempo|time|clock)", Trial.TEMPO, "free"),
    (r"double|twice (too )?fast", Trial.TEMPO, "doubled"),
    (r"flicker", Trial.PEDAL, "flickers"),
    (r"backwards|reversed|wrong way round", Trial.PEDAL, "backwards"),
    (r"crackle", Trial.LOOP, "crackles"),
)


def steps_for(field: Field, words: str) -> tuple[Step, ...]:
    """What a symptom says was seen. Raises CannotUse, with examples, when that is unclear."""
    text = " ".join(words.lower().split())
    units = _units_in(field, text)
    looks = _looks(field, text, units)
    if looks:
        return looks
    seen = next((found for pattern, found in _SEEN.items() if re.search(pattern, text)), None)
    if re.search(_SOMETIMES, text) and units:
        return tuple(_answers(_of(field, Trial.REPEAT, units), "sometimes"))
    if re.search(_ALL, text) and seen is not None:
        return _all_wrong(field)
    if seen is not None and units:
        return tuple(_answers(_of(field, Trial.LOOK, units), seen))
    if units and re.search(r"wrong|not right|bad|odd|strange", text):
        return _glanced(field, units)
    raise CannotUse(_unclear(field, words))


def _units_in(field: Field, text: str) -> tuple[str, ...]:
    """The units that a text names, by id or by name."""
    found = []
    for unit in field.meant.rig.units.values():
        names = {unit.id.lower(), unit.name.lower(), unit.chart.kind.lower()}
        if any(re.search(rf"\b{re.escape(name)}\b", text) for name in names if name):
            found.append(unit.id)
    return tuple(found)


def _of(field: Field, trial: Trial, units: Iterable[str]) -> list[Check]:
    """The first check of this kind for each unit."""
    found: dict[str, Check] = {}
    wanted = set(units)
    for check in field.checks:
        if check.trial is trial and check.unit in wanted:
            found.setdefault(check.unit, check)
    return list(found.values())


def _answers(checks: Iterable[Check], answer: str) -> list[Step]:
    return [Step(Did.ANSWERED, check.id, answer) for check in checks]


def _looks(field: Field, text: str, units: tuple[str, ...]) -> tuple[Step, ...]:
    """Symptoms that are looks at a thing itself: a lamp, a hum, a pedal."""
    for pattern, trial, answer in _LOOKS:
        if not re.search(rf"\b({pattern})", text):
            continue
        checks = [one for one in field.checks if one.trial is trial and answer in one.answers]
        near = [one for one in checks if any(unit in one.id.split() for unit in units)]
        near = near or [one for one in checks if any(one.unit == unit for unit in units)]
        chosen = near or (checks if len(checks) == 1 else [])
        if chosen:
            return tuple(_answers(chosen[:1], answer))
    return ()


def _all_wrong(field: Field) -> tuple[Step, ...]:
    return _glanced(field, field.looked_at)


def _glanced(field: Field, units: Iterable[str]) -> tuple[Step, ...]:
    for check in field.checks:
        if check.trial is Trial.GLANCE:
            named = set(units)
            pressed = [unit for unit in check.units if unit in named]
            return (Step(Did.ANSWERED, check.id, ",".join(pressed)),)
    return ()


def _unclear(field: Field, words: str) -> str:
    names = list(field.looked_at) or list(field.meant.rig.units)
    one = names[0]
    return (
        f'"{words}" does not say which unit does what; for example "{one} does nothing", '
        f'"{one} one too high", "{one} now and then", "everything is dead". '
        f"The units here are: {', '.join(names)}"
    )
