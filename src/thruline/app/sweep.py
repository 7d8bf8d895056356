"""A sweep moved from here: by itself from heel to toe and back, or by keys."""

from collections.abc import Callable, Iterator, Sequence

from thruline.audit.capture import Came, Caught, Ear
from thruline.bench.face import PortGone, WallClock
from thruline.bench.listen import Session
from thruline.bench.pedal import Follower, Learner, Pedal
from thruline.bench.send import planned
from thruline.bench.several import WATCH_US, Way, look_at_every, play_parted
from thruline.bench.travel import Treadle, travel
from thruline.proof.case import Case
from thruline.rig.sweep import POSITIONS, Sweep
from thruline.rig.values import shown

KEY_STEP = 4
"""Places that one key moves the pedal."""
SAID_EVERY = 16
"""A row is said for each so many places of a travel."""


def played_travel(
    case: Case, sweep: Sweep, *, ways: Sequence[Way], clock: WallClock, seconds: float
) -> Iterator[str]:
    """Heel to toe and back. A place whose time is past is left out, so that nothing queues up."""
    treadle = Treadle(case.rig, sweep)
    start_us, last = clock.now_us(), -1
    for at_us, place in travel(seconds):
        late = clock.now_us() - start_us - at_us
        if late > 0 and 0 < place < POSITIONS - 1 and place != last:
            continue
        clock.wait_until(start_us + at_us)
        _go(case, treadle, place, ways=ways, clock=clock)
        if place % SAID_EVERY == 0 or place == POSITIONS - 1:
            yield place_row(treadle, sweep)
        last = place
    look_at_every(ways, land=True)


def _go(case: Case, treadle: Treadle, place: int, *, ways: Sequence[Way], clock: WallClock) -> None:
    """Bring the controls to a place. Raises PortGone when a port goes; the others had it."""
    leaving = planned(treadle.move_to(place), over=case.board.routing.over)
    took = play_parted(leaving, ways, clock, lands=False)
    troubles = [one.trouble for one in took if one.trouble]
    if troubles:
        raise PortGone("; ".join(troubles))


def keyboard_travel(
    case: Case,
    sweep: Sweep,
    *,
    ways: Sequence[Way],
    clock: WallClock,
    key: Callable[[], str],
) -> Iterator[str]:
    """Moved by + and - (and h and t for heel and toe) until q."""
    treadle = Treadle(case.rig, sweep)
    places = {"+": KEY_STEP, "-": -KEY_STEP, "h": -POSITIONS, "t": POSITIONS}
    _go(case, treadle, 0, ways=ways, clock=clock)
    yield f"keys: + and - move, h heel, t toe, q ends. {place_row(treadle, sweep)}"
    while (pressed := key().lower()) != "q":
        if pressed in places:
            _go(case, treadle, treadle.place + places[pressed], ways=ways, clock=clock)
            yield place_row(treadle, sweep)
    look_at_every(ways, land=True)


def learned_pedal(session: Session, wait: Callable[[str], object]) -> Pedal:
    """A pedal learned by moving it; `wait` asks the person for something and comes back when done.

    Raises CannotUse when nothing came of it, or it hardly moved.
    """
    ear, learner = Ear(), Learner()
    for asked, then in (
        ("Move the pedal to its toe and leave it there, then press Enter.", learner.at_toe),
        ("Now move it back to its heel and leave it there, then press Enter.", None),
    ):
        wait(asked)
        learner.hear(heard_now(session, ear))
        if then is not None:
            then()
    return learner.at_heel()


def heard_now(session: Session, ear: Ear) -> list[Caught]:
    """All whole messages that have come since the last time."""
    return [one for entry in session.turn() if isinstance(entry, Came) for one in ear.take(entry)]


def pedal_travel(
    case: Case,
    sweep: Sweep,
    *,
    ways: Sequence[Way],
    session: Session,
    pedal: Pedal,
    until_us: int | None,
) -> Iterator[str]:
    """Moved by a real pedal, until the session has lasted that long; None is without end.

    What the pedal gave while something was being sent is past: only where it stands now is sent.
    """
    treadle, follower, ear = Treadle(case.rig, sweep), Follower(pedal), Ear()
    watched_us = session.passed_us
    while until_us is None or session.passed_us < until_us:
        place = follower.latest(heard_now(session, ear))
        if place is None:
            if session.passed_us > watched_us + WATCH_US:
                watched_us = session.passed_us
                look_at_every(ways)
            session.rest()
            continue
        _go(case, treadle, place, ways=ways, clock=session.clock)
        yield place_row(treadle, sweep)
    look_at_every(ways, land=True)


def place_row(treadle: Treadle, sweep: Sweep) -> str:
    """Where the pedal stands, and what each control was last sent."""
    values = treadle.shown()
    parts = [
        f"{move.unit} {move.control.name} {shown(move.control, values[move.entry])}"
        for move in sweep.moves
        if move.entry in values
    ]
    percent = round(100 * treadle.place / (POSITIONS - 1))
    return f"{sweep.name} at {percent} %: {', '.join(parts)}"
