"""The rigs of one folder, each in a room that is opened when somebody enters."""

import gc
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from anyio import CapacityLimiter, to_thread

from thruline.base.errors import CannotUse, WorldFailed
from thruline.workbench.rigs import ENDING, names_of, title_of

if TYPE_CHECKING:
    from thruline.workbench.room import Room

T = TypeVar("T")


class House:
    """The rigs that may be reached: one file, or those of one folder, and no other."""

    def __init__(self, place: Path) -> None:
        self._place = place
        self._one = None if place.is_dir() else place
        self.folder = place if place.is_dir() else place.parent
        self._rooms: dict[str, Room] = {}
        self._one_at_a_time = CapacityLimiter(1)
        self.is_new = True
        """Whether nobody has entered yet: whoever does will wait for it."""

    @property
    def is_one(self) -> bool:
        """Whether it is the house of a single file."""
        return self._one is not None

    @property
    def names(self) -> tuple[str, ...]:
        """What the rigs are called in addresses of pages."""
        return names_of(self._place)

    @property
    def titles(self) -> tuple[tuple[str, str], ...]:
        """The names, each with what its rig calls itself."""
        return tuple((one, self._title(one)) for one in self.names)

    def _title(self, name: str) -> str:
        try:
            return title_of(self.file(name))
        except CannotUse:  # a link that leads elsewhere: whoever follows it is told
            return name

    @property
    def rooms(self) -> tuple["Room", ...]:
        """The rigs that somebody has opened."""
        return tuple(self._rooms.values())

    async def room(self, name: str) -> "Room":
        """The room of a rig. Raises CannotUse when there is none of the name."""
        try:
            return await self.work(lambda: self._room(name))
        finally:
            self.is_new = False

    def file(self, name: str) -> Path:
        """The document of a rig. Raises CannotUse when there is none of the name."""
        if name not in self.names:
            raise CannotUse(f'there is no rig "{name}" in {self.folder.name or "this folder"}')
        file = self._one or self.folder / f"{name}{ENDING}"
        if file.resolve().parent != self.folder.resolve():
            raise CannotUse(f"{file.name} leads out of the folder of the workbench")
        return file

    def _room(self, name: str) -> "Room":
        if name not in self._rooms:
            from thruline.workbench.room import Room  # noqa: PLC0415 - loads what proves a rig

            self._rooms[name] = Room(name, self.file(name))
            gc.freeze()  # what was opened stays; to look through it again and again costs a pause
        return self._rooms[name]

    async def work(self, what: Callable[[], T]) -> T:
        """Do something that takes a while, beside the event loop and one at a time."""
        return await to_thread.run_sync(what, limiter=self._one_at_a_time)

    async def look_at_files(self) -> None:
        """Notice what something else has written, in every room that somebody looks into."""
        for room in self.rooms:
            if room.is_watched:
                turn = room.turn
                try:
                    await self.work(room.look_at_file)
                except (CannotUse, WorldFailed):
                    continue  # the file is gone for a moment, or for good: the next edit says so
                if room.turn != turn:
                    room.tell()
