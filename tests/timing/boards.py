"""Units and listeners of small boards, for the tests of receiving and running."""

from tests.opening import open_text
from thruline.proof.example_boards import a_unit, board
from thruline.rig.whole import Rig
from thruline.timing.receive import Arrival, Listener, Reception, listener_of, receive

BYTE = 320
FAR_APART = 1_000_000


def listener(chart: str, *rows: str, channel: int = 3) -> Listener:
    """A unit of this chart on a channel, as a listener."""
    text = board(a_unit("it", chart, f"channel = {channel}", *rows)).rig
    return listener_of(open_text(text).rig.units["it"])


def hear(ear: Listener, *messages: tuple[int, ...], gap: int = FAR_APART) -> Reception:
    """What a unit makes of messages that come one after the other, `gap` us apart."""
    arrivals, clock = [], 0
    for message in messages:
        end = clock + BYTE * len(message)
        arrivals.append(Arrival(clock, end, bytes(message)))
        clock = end + gap
    return receive(ear, arrivals)


def rig_of(*pieces: str) -> Rig:
    """The rig of these pieces behind the usual foot controller."""
    return open_text(board(*pieces).rig).rig
