"""A board whose controller sends to each unit over one of two outputs."""

from tests.opening import open_text
from thruline.app.load import Opened
from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, a_preset, a_unit, board

SAME_CHANNEL = a_unit("echo", "bramley-delay", "channel = 3")
TO_ECHO = a_cable("feet.midi-out-2", "echo.midi-in")
BOTH = a_preset(
    1,
    "Overture",
    'delay = { program = "11B", mix = 40 }',
    'echo = { program = "12A", mix = 90 }',
)


def two_lines(*more: str, controller: str = "pearmain-ten") -> Opened:
    """Two delays on one channel, each on an output of its own."""
    pieces = (DELAY, SAME_CHANNEL, TO_DELAY, TO_ECHO, BOTH, *more)
    return open_text(board(*pieces, controller=controller).rig)


def case_of_two_lines(*more: str, controller: str = "pearmain-ten") -> Case:
    """The case of that board."""
    return Case(two_lines(*more, controller=controller).rig)


def case_by_message() -> Case:
    """The same, with the output chosen for each message."""
    pieces = (DELAY, SAME_CHANNEL, TO_DELAY, TO_ECHO, BOTH)
    return Case(open_text(board(*pieces, controller="gilliflower-two").rig).rig)
