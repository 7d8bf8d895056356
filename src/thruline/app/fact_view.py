"""Facts of a document for a page that fills them in, and what is typed there as edits."""

from collections.abc import Iterable, Mapping, Sequence

from thruline.app.frame import Json
from thruline.app.mend import State
from thruline.base.address import Address, read_address
from thruline.base.edit import Edit, Plain, add_to, remove, set_to
from thruline.base.errors import CannotUse
from thruline.document.facts import Clause, Fact, clauses, typed_to_value
from thruline.document.naming import trail_of
from thruline.document.plain import at_trail
from thruline.document.rig_shape import RigShape
from thruline.document.shape import Shape

RIG_CLAUSES = ("rig", "audio", "song", "accept")
"""What of a rig is filled in as facts; the rest has pages of its own."""


def rig_facts_json(state: State) -> Json:
    """The rig's own facts, the way of the sound, songs, and the findings that are accepted."""
    found = {one.key: one for one in clauses(RigShape, state.opened.document.data)}
    return {
        "clauses": clauses_json(found[key] for key in RIG_CLAUSES),
        "presets": [{"number": one.number, "name": one.name} for one in state.opened.rig.presets],
    }


def entry_json(state: State, key: str, label: str) -> Json:
    """One entry of a list of the rig, such as a unit, as a clause for a page.

    Raises CannotUse when there is none of the label.
    """
    listed = next(one for one in clauses(RigShape, state.opened.document.data) if one.key == key)
    for told in clauses_json(one for one in listed.parts if one.label == label):
        return told
    raise CannotUse(f'there is no {key} "{label}" any more')


def clauses_json(found: Iterable[Clause]) -> list[Json]:
    """Clauses for a page."""
    return [
        {
            "address": str(one.address),
            "key": one.key,
            "says": one.says,
            "label": one.label,
            "is_list": one.is_list,
            "is_given": one.is_given,
            "blank": [_fact_json(fact) for fact in one.blank],
            "facts": [_fact_json(fact) for fact in one.facts],
            "parts": clauses_json(one.parts),
        }
        for one in found
    ]


def _fact_json(fact: Fact) -> Json:
    return {
        "address": str(fact.address),
        "key": fact.key,
        "typed": fact.typed,
        "says": fact.says,
        "example": fact.example,
        "choices": list(fact.choices),
        "usual": fact.usual,
        "is_required": fact.is_required,
    }


def typed_edit(model: type[Shape], address: str, text: str) -> Edit:
    """The edit that a person means who types a text for a fact; an empty one takes it away.

    Raises CannotUse when it is not understood.
    """
    place = read_address(address)
    if not text.strip():
        return remove(place)
    return set_to(place, typed_to_value(model, place, text))


def added_edit(
    model: type[Shape], address: str, texts: Mapping[str, str], *, is_list: bool
) -> Edit:
    """The edit that adds a clause, or one more entry to a list, from what was typed by key.

    Raises CannotUse when something of it is not understood.
    """
    place = read_address(address)
    entry: dict[str, Plain] = {
        key: typed_to_value(model, place.child(key), text)
        for key, text in texts.items()
        if text.strip()
    }
    return add_to(place, entry) if is_list else set_to(place, entry)


def moved_edit(data: Mapping[str, object], address: str, *, by: int) -> Edit:
    """The edit that puts an entry of a list earlier (`by` -1) or later (1).

    Raises CannotUse when it stands at the end already, or is no entry of a list.
    """
    place = read_address(address)
    trail = trail_of(data, place)
    index = trail[-1]
    if not isinstance(index, int):
        raise CannotUse(f"{address} is not one of several, so it has no place among them")
    entries = list(_entries(at_trail(data, trail[:-1])))
    if not 0 <= index + by < len(entries):
        raise CannotUse(f"{address} stands at the end already")
    entries.insert(index + by, entries.pop(index))
    key = place.steps[-1].key
    return set_to(Address(place.steps[:-1]).child(key), entries)


def _entries(found: object) -> Sequence[Plain]:
    return found if isinstance(found, list) else ()
