"""A capture whose presses are noted, followed entry by entry as it comes."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from thruline.audit.capture import Ear, Entry, Note, NoteKind, is_of_a_press
from thruline.audit.meant import Column, Mask, Meant
from thruline.audit.press import Press, keys_at
from thruline.base.errors import CannotUse
from thruline.rig.nearest import nearest


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Aligned:
    """All presses, the keys of what was heard, which steps were done, and malformed bytes."""

    presses: tuple[Press, ...]
    keys: Column
    pressed: Mask
    malformed: int


class Follower:
    """Finds the press that everything belongs to, from one noted press to the next.

    Only what came since is read when more is asked, so that the answer about sixty presses is
    there as soon as that about one.
    """

    def __init__(self, meant: Meant, lines: Sequence[str]) -> None:
        self._meant = meant
        self._taps = taps_of(lines, meant)
        self._ear = Ear()
        self._malformed = 0
        self._step: int | None = None
        self._at_us = 0
        self._heard: list[tuple[int, bytes]] = []
        self._presses: list[Press] = []
        self._keys: dict[int, Column] = {}

    def take(self, entry: Entry) -> None:
        """One entry more. Raises CannotUse for a note about a preset that is not there."""
        for one in self._ear.hear(entry):
            if not is_of_a_press(one):
                continue
            if isinstance(one, Note):
                self._note(one)
            elif one.message is None:
                self._malformed += 1
            elif one.line in self._taps:
                self._heard.append((self._taps[one.line], one.raw))

    def _note(self, note: Note) -> None:
        """A press ends where the next is noted; one that is noted as skipped was none."""
        is_skipped = note.kind is NoteKind.SKIP
        if self._step is not None and not is_skipped:
            press = self._press(self._step)
            self._presses.append(press)
            self._keys[self._step] = keys_of(press, self._meant)
        self._step = None if is_skipped else step_noted(note, self._meant)
        self._at_us, self._heard = note.at_us, []

    def _press(self, step: int) -> Press:
        return Press(step=step, at_us=self._at_us, heard=tuple(self._heard))

    def aligned(self) -> Aligned:
        """All presses so far. What was asked for last is none while nothing of it is heard."""
        presses, keys = list(self._presses), dict(self._keys)
        if self._step is not None and self._heard:
            presses.append(self._press(self._step))
            keys[self._step] = keys_of(presses[-1], self._meant)
        unfinished = [one for one in self._ear.unfinished(0) if is_of_a_press(one)]
        malformed = self._malformed + len(unfinished)
        return aligned(presses, keys, meant=self._meant, malformed=malformed)


def aligned(
    presses: Sequence[Press], keys: dict[int, Column], *, meant: Meant, malformed: int
) -> Aligned:
    """Presses put together; `keys` are those heard at each step that was done."""
    pressed = np.zeros(len(meant.steps), np.bool_)
    pressed[list(keys)] = True
    return Aligned(
        presses=tuple(presses),
        keys=np.concatenate((np.zeros(0, np.int64), *keys.values())),
        pressed=pressed,
        malformed=malformed,
    )


def keys_of(press: Press, meant: Meant) -> Column:
    """The keys of what was heard at a press."""
    return np.fromiter(keys_at(press, meant), np.int64)


def taps_of(lines: Sequence[str], meant: Meant) -> dict[int, int]:
    """Lines of the capture by the tap that each is: by name, or in their order."""
    places = {name: place for place, name in enumerate(meant.taps)}
    named = {number: places[name] for number, name in enumerate(lines, 1) if name in places}
    if named:
        return named
    return {number: number - 1 for number in range(1, min(len(lines), len(places)) + 1)}


def step_noted(note: Note, meant: Meant) -> int:
    """The step that a note is about. Raises CannotUse, naming what there is, when it is none."""
    for place, step in enumerate(meant.steps):
        named = step.sweep if note.kind is NoteKind.SWEEP else str(step.preset)
        if named is not None and named.lower() == _noted_name(note):
            return place
    names = [step.sweep or str(step.preset) for step in meant.steps]
    meant_name = nearest(note.text, names)
    hint = f'; did you mean "{meant_name}"?' if meant_name else ""
    raise CannotUse(f'the capture notes a press of "{note.text}", which is not in this rig{hint}')


def _noted_name(note: Note) -> str:
    """What a note names: of a preset its number, behind which its name may stand."""
    text = note.text.lower()
    return text if note.kind is NoteKind.SWEEP else text.partition(" ")[0]
