"""How a thing in a rig is named: `unit[delay].settings.midi-out`.

An address is a chain of steps. Tables in a list are picked by what names them (a unit by its id, a
preset by its number, a cable by its two sockets), so that an address survives edits elsewhere.
"""

import re
from dataclasses import dataclass

from thruline.base.errors import CannotUse

_STEP = re.compile(r"([A-Za-z0-9_-]+)(?:\[([^\[\]]*)\])?(\.|$)")


MOST_STEPS = 32
"""Four times as many as the deepest fact of a rig has."""


@dataclass(frozen=True, slots=True, order=True)
class Step:
    """One step: a key, and the name of the list entry when the key holds a list."""

    key: str
    entry: str | None = None

    def __str__(self) -> str:
        return self.key if self.entry is None else f"{self.key}[{self.entry}]"


@dataclass(frozen=True, slots=True, order=True)
class Address:
    """A chain of steps from the root of a rig document."""

    steps: tuple[Step, ...]

    def __str__(self) -> str:
        return ".".join(str(step) for step in self.steps)

    def child(self, key: str, entry: str | None = None) -> "Address":
        """The address one step further down."""
        return Address((*self.steps, Step(key, entry)))

    @property
    def parent(self) -> "Address":
        """The address one step up; the root is its own parent."""
        return Address(self.steps[:-1])


def at(key: str, entry: object = None) -> Address:
    """A one-step address: `at("unit", "delay")` is `unit[delay]`."""
    return Address((Step(key, None if entry is None else str(entry)),))


def nth(name: str, occurrence: int) -> str:
    """The name of a list entry among others of its name: `Swell`, then `Swell#2`, `Swell#3`."""
    return name if occurrence == 1 else f"{name}#{occurrence}"


def read_address(text: str) -> Address:
    """Read `unit[delay].settings.midi-out`; the inverse of `str`.

    Raises CannotUse when the text is not an address.
    """
    steps: list[Step] = []
    position = 0
    while position < len(text):
        found = _STEP.match(text, position)
        if found is None or (found[3] == "." and found.end() == len(text)):
            raise CannotUse(f'"{text}" is not an address; one reads like unit[delay].channel')
        if len(steps) == MOST_STEPS:
            raise CannotUse(f"an address has at most {MOST_STEPS} steps")
        steps.append(Step(found[1], found[2]))
        position = found.end()
    if not steps:
        raise CannotUse("an address is empty; one reads like unit[delay].channel")
    return Address(tuple(steps))
