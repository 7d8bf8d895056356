"""What the first page does not need: loaded when it is asked for, or when there is time for it."""

import asyncio
from collections.abc import Callable, Sequence
from typing import Protocol

from anyio import to_thread
from starlette.routing import BaseRoute, Router
from starlette.types import Receive, Scope, Send


class Wing(Protocol):
    """A part of the workbench that answers beside the pages."""

    def routes(self) -> Sequence[BaseRoute]:
        """Its addresses."""
        ...

    def turn(self, name: str) -> int:
        """A number that grows with whatever happens in it to a rig."""
        ...

    async def look(self) -> None:
        """Notice what has happened outside."""
        ...

    async def follow(self) -> None:
        """Go on telling pages what happens, until it is cancelled."""
        ...

    async def close(self) -> None:
        """Let go of everything."""
        ...


class Later:
    """A wing that is slow to load: whoever comes first waits for it."""

    def __init__(self, load: Callable[[], Wing]) -> None:
        self._load = load
        self._one_at_a_time = asyncio.Lock()
        self._router: Router | None = None
        self.loaded: Wing | None = None
        """The wing, as soon as it is there."""

    async def here(self) -> Wing:
        """The wing, loaded beside the event loop if it is not yet."""
        async with self._one_at_a_time:
            if self.loaded is None:
                self.loaded = await to_thread.run_sync(self._load)
        return self.loaded

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer what nothing before has answered."""
        if self._router is None:
            self._router = Router((await self.here()).routes())
        await self._router(scope, receive, send)

    def turn(self, name: str) -> int:
        """As the wing's; 0 while nothing can have happened in it."""
        return self.loaded.turn(name) if self.loaded else 0
