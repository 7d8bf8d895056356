"""The address of plans: worked out beside the workbench, given up when nobody waits any more."""

from collections.abc import Sequence

from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from thruline.workbench.asked import unheard
from thruline.workbench.house import House
from thruline.workbench.planning import Planner, plan_wish


class Plans:
    """The plans of the rigs of a house."""

    def __init__(self, house: House) -> None:
        self._house = house
        self._planner = Planner()

    def routes(self) -> Sequence[Route]:
        """The addresses."""
        return [Route("/rig/{rig}/plan.json", self.plan)]

    def close(self) -> None:
        """Give up whatever is being planned."""
        self._planner.stop()

    async def plan(self, request: Request) -> Response:
        """A plan for the rig as it is now, and the revision for which it was worked out."""
        room = await self._house.room(request.path_params["rig"])
        desk = room.desk
        wish = plan_wish(desk.state.opened, dict(request.query_params))
        found = await self._planner.plan(room.name, wish, is_gone=request.is_disconnected)
        if found is None:
            return unheard()
        return JSONResponse({**found, "revision": desk.history.now})
