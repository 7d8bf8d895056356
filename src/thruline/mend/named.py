"""What a mend is called: a word made of what it changes, the same whatever else stands in the list.

`reverb.midi-out=thru` sets a menu item, `+cable.feet.usb-to-delay.usb` adds a cable, `-accept.#2`
takes an acceptance out. Such a word can be typed in a shell as it is, and a mend keeps it while
other mends are made.
"""

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence

from thruline.base.address import Address
from thruline.base.edit import Edit, EditKind, Plain
from thruline.base.errors import CannotUse
from thruline.proof.finding import Mend
from thruline.rig.nearest import nearest

_UNSAID = ("unit", "settings")
_NOT_FOR_A_SHELL = re.compile(r"[^A-Za-z0-9._=+%#-]+")
_LONGEST_VALUE = 40


def named(mends: Sequence[Mend]) -> tuple[str, ...]:
    """A name for each mend: of its first edit or, where others share that, of all of its edits.

    Mends with the same edits have the same name, for they do the same.
    """
    sharing: dict[str, list[Mend]] = defaultdict(list)
    for mend in mends:
        sharing[_short(mend)].append(mend)
    return tuple(
        _short(mend)
        if all(other.edits == mend.edits for other in sharing[_short(mend)])
        else _long(mend)
        for mend in mends
    )


def called(word: str, mends: Sequence[Mend]) -> int:
    """The place of the mend that a word names, whole or by its beginning.

    Raises CannotUse when there is none, or when several different ones begin like it.
    """
    names = named(mends)
    for fits in (
        [at for at, name in enumerate(names) if word == name],
        [at for at, mend in enumerate(mends) if word in (_short(mend), _long(mend))],
        [at for at, name in enumerate(names) if name.startswith(word)],
    ):
        if fits:
            meant = sorted({names[at] for at in fits})
            if len(meant) > 1 or any(mends[at].edits != mends[fits[0]].edits for at in fits):
                raise CannotUse(f'"{word}" can be several mends: {", ".join(meant)}')
            return fits[0]
    close = nearest(word, names)
    hint = f'; did you mean "{close}"?' if close else "; `thruline mend` lists them by name"
    raise CannotUse(f'there is no mend "{word}"{hint}')


def _short(mend: Mend) -> str:
    return _of(mend.edits[0]) if mend.edits else "nothing"


def _long(mend: Mend) -> str:
    return "+".join(map(_of, mend.edits)) or "nothing"


def _of(edit: Edit) -> str:
    place = _place(edit.address)
    if edit.kind is EditKind.REMOVE:
        return f"-{place}"
    if edit.kind is EditKind.ADD:
        return f"+{place}.{_ends(edit.value)}"
    return f"{place}={_value(edit.value)}"


def _place(address: Address) -> str:
    """The names on the way, without what every way begins with."""
    words = []
    for step in address.steps:
        if step.key not in _UNSAID:
            words.append(step.key)
        if step.entry is not None:
            words.append(step.entry)
    return _typed(".".join(words))


def _ends(value: "Plain | None") -> str:
    """What tells an added table from others: its ends, or all of it."""
    if isinstance(value, Mapping) and {"from", "to"} <= value.keys():
        return _typed(f"{value['from']}>{value['to']}")
    return _value(value)


def _value(value: "Plain | None") -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Mapping):
        said = ".".join(_value(one) for one in value.values())
    elif isinstance(value, list):
        said = ".".join(map(_value, value))
    else:
        said = _typed(str(value))
    return said[:_LONGEST_VALUE].rstrip(".-")


def _typed(text: str) -> str:
    """Text without what a shell would read otherwise."""
    return _NOT_FOR_A_SHELL.sub("-", text.replace(">", "-to-")).strip("-")
