"""A sweep that is moved from a page: by a slider and its keys, or by a real pedal."""

from collections.abc import Iterable

from thruline.app.frame import Json
from thruline.app.parted import look_at_ways, overs_of
from thruline.app.send import pick_sweep
from thruline.app.sending import Sending
from thruline.app.sweep import place_row
from thruline.audit.capture import Caught, Note
from thruline.base.errors import CannotUse, WorldFailed
from thruline.bench.pedal import Follower, Learner, Pedal, pedal_to_text
from thruline.bench.send import planned
from thruline.bench.travel import Treadle
from thruline.proof.case import Case
from thruline.rig.sweep import Sweep


class Sweeping:
    """The sweep in hand, and the pedal that moves it, if one does."""

    def __init__(self, sending: Sending) -> None:
        self._sending = sending
        self._case: Case | None = None
        self._treadle: Treadle | None = None
        self._sweep: Sweep | None = None
        self._place = 0
        self._name = ""
        self._learner: Learner | None = None
        self._follower: Follower | None = None
        self._is_at_toe = False
        self.pedal: Pedal | None = None
        self.says = ""

    def move(self, case: Case, name: str, *, place: int) -> None:
        """Move a sweep to a place. Raises CannotUse when nothing may be sent, PortGone as ports."""
        self._sending.may_send()
        if self._treadle is None or self._case is not case or self._name != name:
            self._take_up(case, name)
        self._go(place)

    def _take_up(self, case: Case, name: str) -> None:
        ways = self._sending.outputs
        look_at_ways(case, ways)
        sweep = pick_sweep(case, name, overs=overs_of(ways))
        self._case, self._name, self._sweep = case, sweep.name, sweep
        self._treadle = Treadle(case.rig, sweep)

    def _go(self, place: int) -> None:
        if self._treadle is None or self._case is None or self._sweep is None:
            return
        items = self._treadle.move_to(place)
        self._place = self._treadle.place
        try:
            self._sending.send_now(planned(items, over=self._case.board.routing.over))
        except WorldFailed:
            self._treadle = None  # so that a port that comes back is sent every value anew
            raise
        self.says = place_row(self._treadle, self._sweep)

    def learn(self) -> None:
        """Begin to learn the real pedal."""
        self._learner, self._follower, self._is_at_toe = Learner(), None, False

    def at_toe(self) -> None:
        """The pedal stands at its toe. Raises CannotUse when nothing came of it."""
        self._learning().at_toe()
        self._is_at_toe = True

    def at_heel(self) -> None:
        """The pedal stands at its heel, and is known. Raises CannotUse when it has not moved."""
        self.pedal = self._learning().at_heel()
        self._learner, self._is_at_toe = None, False

    def _learning(self) -> Learner:
        if self._learner is None:
            raise CannotUse("no pedal is being learned; begin with Learn the pedal")
        return self._learner

    def follow(self, case: Case, name: str) -> None:
        """Let the pedal move a sweep. Raises CannotUse when it is not known, or nothing sent."""
        if self.pedal is None:
            raise CannotUse("learn the pedal first, so that its ends are known")
        self._sending.may_send()
        self._take_up(case, name)
        self._follower = Follower(self.pedal)
        self.says = "move the pedal"

    def let_go(self) -> None:
        """The pedal moves nothing any more."""
        self._follower = self._learner = None

    def forget(self) -> None:
        """Ports are let go of: whatever is sent to others begins anew, with every value."""
        self.let_go()
        self._treadle, self._place = None, 0

    def see_gone(self, troubles: Iterable[str]) -> None:
        """Ports have gone: once they are back they are sent every value anew."""
        self._treadle = None
        says = "; ".join(troubles)
        if self._follower is not None:
            self.let_go()
            self.says = f"the pedal moves nothing any more: {says}"
        elif self._name:
            self.says = says

    def hear(self, events: Iterable[Caught | Note]) -> None:
        """What came in: it may be the pedal."""
        if self._learner is not None:
            self._learner.hear(events)
        place = self._follower.latest(events) if self._follower else None
        if place is None:
            return
        try:
            self._sending.may_send()
            self._go(place)
        except (CannotUse, WorldFailed) as trouble:
            self.let_go()
            self.says = f"the pedal moves nothing any more: {trouble.says}"

    def as_json(self) -> Json:
        """Where it stands, for a page."""
        stage = "at-heel" if self._is_at_toe else "at-toe"
        return {
            "name": self._name,
            "place": self._place,
            "says": self.says,
            "learning": stage if self._learner is not None else "",
            "moved": self._learner.moved if self._learner else "",
            "pedal": self.pedal.says if self.pedal else "",
            "written": pedal_to_text(self.pedal) if self.pedal else "",
            "follows": self._follower is not None,
        }
