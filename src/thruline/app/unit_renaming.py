"""A unit called otherwise: its id, with everything in the rig that names it."""

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any, TypeAlias

from thruline.app.fact_view import entry_json
from thruline.app.frame import Json
from thruline.app.mend import State
from thruline.base.address import at
from thruline.base.edit import Edit, set_to
from thruline.base.errors import CannotUse
from thruline.document.facts import typed_to_value
from thruline.document.plain import same
from thruline.document.rig_shape import RigShape

_ELSEWHERE = ("name", "channel", "sent-over")
"""Facts of a unit that are shown at its head, with the values that its chart allows."""


def unit_facts_json(state: State, unit: str) -> Json:
    """What is written of a unit beside its name, channel and settings, as facts for a page.

    Raises CannotUse when there is no such unit.
    """
    told = entry_json(state, "unit", unit)
    facts = [one for one in told["facts"] if one["key"] not in (*_ELSEWHERE, "settings")]
    return {"facts": facts, "parts": [one for one in told["parts"] if one["key"] != "place"]}


def renamed_unit(state: State, old: str, typed: str) -> tuple[Edit, ...]:
    """The edits that give a unit another id wherever the rig names it.

    Raises CannotUse when the id is not understood, or belongs to another unit.
    """
    units = state.opened.rig.units
    if old not in units:
        raise CannotUse(f'there is no unit "{old}" any more')
    new = str(typed_to_value(RigShape, units[old].address.child("id"), typed))
    if new == old:
        return ()
    if new in units:
        raise CannotUse(f'there is a unit "{new}" already: {units[new].name}; give another id')
    data = state.opened.document.data
    naming = _Naming(old, new)
    after = ((key, _NAMING[key](value, naming)) for key, value in data.items() if key in _NAMING)
    return tuple(set_to(at(key), value) for key, value in after if not same(value, data[key]))


class _Naming:
    """The ways in which a rig names a unit, with another id put in."""

    def __init__(self, old: str, new: str) -> None:
        name = re.escape(old)
        self._old, self._new = old, new
        self._in_sound = re.compile(rf"(?<![a-z0-9.-]){name}(?![a-z0-9-])")
        self._in_finding = re.compile(
            rf"(?<=unit\[){name}(?=\])|(?<=[\[>]){name}(?=[.>])|(?<=\]\.){name}(?=[.\s]|$)"
        )

    def unit(self, told: str) -> str:
        """The id itself."""
        return self._new if told == self._old else told

    def socket(self, told: str) -> str:
        """`delay.midi-in`."""
        unit, dot, rest = told.partition(".")
        return self.unit(unit) + dot + rest

    def stage(self, told: str) -> str:
        """A stage of the way of the sound: `delay`, or `feet.loop-1[drive, boost]`."""
        return self._in_sound.sub(self._new, told)

    def finding(self, told: str) -> str:
        """The name of an accepted finding, such as `... at unit[delay].channel`."""
        return self._in_finding.sub(self._new, told)


_Part: TypeAlias = Mapping[str, Any]
_Word: TypeAlias = Callable[[str], str]


def _each(entries: Sequence[_Part], **words: _Word) -> list[_Part]:
    """Entries with words in some of their values; `from_` stands for `from`."""
    return [_with(one, **words) for one in entries]


def _with(part: _Part, **words: _Word) -> dict[str, Any]:
    given = {key.rstrip("_"): word for key, word in words.items()}
    return {key: given[key](one) if key in given else one for key, one in part.items()}


def _sweep(sweep: _Part, naming: _Naming) -> _Part:
    moves = _each(sweep["moves"], unit=naming.unit)
    return {**_with(sweep, pedal=naming.socket), "moves": moves}


_NAMING: Mapping[str, Callable[[Any, _Naming], Any]] = {
    "rig": lambda head, to: _with(head, controller=to.unit),
    "unit": lambda units, to: _each(units, id=to.unit),
    "cable": lambda cables, to: _each(cables, from_=to.socket, to=to.socket),
    "audio": lambda audio, to: {**audio, "path": [to.stage(one) for one in audio["path"]]},
    "preset": lambda presets, to: [{to.unit(key): one[key] for key in one} for one in presets],
    "sweep": lambda sweeps, to: [_sweep(one, to) for one in sweeps],
    "accept": lambda accepted, to: _each(accepted, finding=to.finding),
}
"""Each part of a rig that can name a unit, and how it reads with another id."""
