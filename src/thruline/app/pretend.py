"""A pretend board played into a capture, with mistakes given in words."""

from collections.abc import Sequence

from thruline.audit.capture import Capture
from thruline.audit.fault import ALL, CONTROLS, PROGRAMS, Family, Fault
from thruline.audit.meant import Meant
from thruline.base.errors import CannotUse
from thruline.bench.pretend import Chance, Trouble, pretend_capture
from thruline.rig.nearest import nearest

KINDS = {"anything": ALL, "programs": PROGRAMS, "controls": CONTROLS}
FORMS = {
    Family.STALE: "stale PRESET",
    Family.STALE_ALL: "stale-all",
    Family.SLOTS: "slots PRESET +1",
    Family.NUMBERING: "numbering UNIT +1",
    Family.NUMBER: "control-number UNIT 52 53",
    Family.REVERSED: "reversed UNIT 52",
    Family.CHANNEL: "channel UNIT 5",
    Family.SWAPPED: "channels-swapped UNIT UNIT",
    Family.OMITTED: "omitted UNIT programs",
    Family.FILTER: "filter controls",
    Family.SHUT: "shut UNIT.SOCKET anything",
    Family.SWALLOWED: "swallowed UNIT.SOCKET",
}
"""How each mistake is ordered."""


def play_pretend(
    meant: Meant, faults: Sequence[Fault], *, trouble: Trouble, chance: Chance
) -> Capture:
    """What would be heard on pressing everything once."""
    return pretend_capture(meant, faults, trouble=trouble, chance=chance)


def fault_of(text: str, meant: Meant) -> Fault:
    """A mistake in words, as `FORMS` shows them. Raises CannotUse, with an example, otherwise."""
    name, *words = text.split() or [""]
    families = {family.value: family for family in Family}
    if name not in families:
        hint = nearest(name, list(families))
        ways = "; ".join(FORMS.values())
        also = f'; did you mean "{hint}"? There are' if hint else "; there are"
        raise CannotUse(f'"{name}" is no mistake that can be ordered{also}: {ways}')
    family = families[name]
    if len(words) != len(FORMS[family].split()) - 1:
        raise CannotUse(f'"{text}" is not whole; it is ordered like this: {FORMS[family]}')
    return Fault(family, *_numbers(family, words, meant))


def _numbers(family: Family, words: Sequence[str], meant: Meant) -> list[int]:
    match family:
        case Family.STALE | Family.SLOTS:
            found = [_step(words[0], meant), *(_whole(word, family) for word in words[1:])]
            if family is Family.STALE and found[0] not in meant.changed:
                raise CannotUse(f"preset {words[0]} is as it was before; say --before with others")
            return found
        case Family.STALE_ALL:
            return []
        case Family.FILTER:
            return [_kind(words[0], family)]
        case Family.SHUT | Family.SWALLOWED:
            return [_line(words[0], meant), *(_kind(word, family) for word in words[1:])]
        case Family.SWAPPED:
            return [_unit(word, meant) for word in words]
        case Family.OMITTED:
            return [_unit(words[0], meant), _kind(words[1], family)]
        case Family.CHANNEL:
            return [_unit(words[0], meant), _whole(words[1], family) - 1]
        case _:
            return [_unit(words[0], meant), *(_whole(word, family) for word in words[1:])]


def _whole(word: str, family: Family) -> int:
    try:
        number = int(word)
    except ValueError:
        raise CannotUse(
            f'"{word}" is no whole number; it is ordered like this: {FORMS[family]}'
        ) from None
    low, high = {Family.SLOTS: (-1, 1), Family.NUMBERING: (-1, 1), Family.CHANNEL: (1, 16)}.get(
        family, (0, 127)
    )
    if not low <= number <= high or (low == -1 and not number):
        raise CannotUse(f"{number} is outside {low} to {high}, as in: {FORMS[family]}")
    return number


def _kind(word: str, family: Family) -> int:
    if word not in KINDS:
        raise CannotUse(f'"{word}" is none of {", ".join(KINDS)}, as in: {FORMS[family]}')
    return KINDS[word]


def _step(word: str, meant: Meant) -> int:
    for place, step in enumerate(meant.steps):
        if str(step.preset) == word:
            return place
    raise CannotUse(f'there is no preset "{word}" in this rig')


def _unit(word: str, meant: Meant) -> int:
    if word not in meant.units:
        raise CannotUse(f'there is no unit "{word}" with a channel; {_known(word, meant.units)}')
    return meant.units.index(word)


def _line(word: str, meant: Meant) -> int:
    names = [str(jack) for jack in meant.lines]
    if word not in names:
        raise CannotUse(f'"{word}" is no output that passes messages on; {_known(word, names)}')
    return names.index(word)


def _known(word: str, names: Sequence[str]) -> str:
    meant = nearest(word, names)
    return f'did you mean "{meant}"?' if meant else f"there are {', '.join(names)}"
