"""What the Find page can do: begin a search, answer, take back, and put it away."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from thruline.app import search_view
from thruline.app.locate import Place
from thruline.base.errors import CannotUse
from thruline.workbench.asked import Asked, wanted
from thruline.workbench.room import Change


def _begin(asked: Asked) -> Change:
    wish = search_view.Begin(
        place=_place(asked),
        symptoms=[one for one in wanted(asked, "symptoms", list) if isinstance(one, str)],
        by_proof=wanted(asked, "from_proof", bool),
        capture=wanted(asked, "from_capture", str) if "from_capture" in asked else "",
        at=[wanted(asked, "at", str)] if asked.get("at") else (),
    )
    return lambda desk, keeping: search_view.begun(desk, keeping, wish)


def _answer(asked: Asked) -> Change:
    text, steps = wanted(asked, "answer", str), wanted(asked, "steps", int)
    check = wanted(asked, "check", str) if "check" in asked else None
    return lambda desk, keeping: search_view.answered(desk, keeping, text, steps=steps, check=check)


def _symptom(asked: Asked) -> Change:
    words, steps = wanted(asked, "symptom", str), wanted(asked, "steps", int)
    return lambda desk, keeping: search_view.told(desk, keeping, words, steps=steps)


def _without(asked: Asked) -> Change:
    place, steps = wanted(asked, "step", int), wanted(asked, "steps", int)
    return lambda desk, keeping: search_view.without(desk, keeping, place, steps=steps)


def _move(asked: Asked) -> Change:
    place = _place(asked)
    return lambda desk, keeping: search_view.moved_to(desk, keeping, place)


def _end(_asked: Asked) -> Change:
    return search_view.put_away


def _place(asked: Asked) -> Place:
    word = wanted(asked, "place", str)
    if word not in tuple(Place):
        raise CannotUse(f'"{word}" is no place; there are {", ".join(Place)}')
    return Place(word)


SEARCH_DEEDS: Mapping[str, Callable[[Asked], Change]] = MappingProxyType(
    {
        "find-answer": _answer,
        "find-begin": _begin,
        "find-end": _end,
        "find-place": _move,
        "find-symptom": _symptom,
        "find-without": _without,
    }
)
"""Every deed of a search by the word that a page sends."""
