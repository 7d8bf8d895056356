"""What a page can do to facts: fill one in, add a clause or an entry, change the order."""

from collections.abc import Callable

from thruline.app import desk as desks
from thruline.app.desk import Desk, Keeping
from thruline.app.edit_words import edits_in_words
from thruline.app.fact_view import added_edit, moved_edit, typed_edit
from thruline.base.edit import Edit
from thruline.document.rig_shape import RigShape
from thruline.workbench.asked import Asked, wanted
from thruline.workbench.room import Change


def fact(asked: Asked) -> Change:
    """Fill in one fact of the rig with what was typed."""
    address, text = wanted(asked, "address", str), wanted(asked, "text", str)
    return _made(asked, lambda _desk: typed_edit(RigShape, address, text))


def add_fact(asked: Asked) -> Change:
    """Add a clause to the rig, or one more entry to a list in it."""
    address, is_list = wanted(asked, "address", str), wanted(asked, "list", bool)
    texts = {str(key): str(text) for key, text in wanted(asked, "texts", dict).items()}
    return _made(asked, lambda _desk: added_edit(RigShape, address, texts, is_list=is_list))


def move_fact(asked: Asked) -> Change:
    """Put an entry of a list one earlier or later, from where it stands by now."""
    address, by = wanted(asked, "address", str), wanted(asked, "by", int)
    says = f"put {address} {'earlier' if by < 0 else 'later'}"

    def change(desk: Desk, keeping: Keeping) -> Desk:
        desk = desks.caught_up(desk, keeping)
        edit = moved_edit(desk.state.opened.document.data, address, by=by)
        return desks.edited(desk, [edit], keeping, says=says)

    return change


def _made(asked: Asked, make: Callable[[Desk], Edit]) -> Change:
    seen = wanted(asked, "seen", int)

    def change(desk: Desk, keeping: Keeping) -> Desk:
        desk = desks.caught_up(desk, keeping)
        edit = make(desk)
        says = edits_in_words([edit], desk.state.opened.document.data)
        return desks.edited(desk, [edit], keeping, says=says, seen=seen)

    return change
