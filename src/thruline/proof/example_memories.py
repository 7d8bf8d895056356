"""A board whose controller's memory was read, for examples."""

from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.rule import Example


def stored(*messages: str, goals: str = 'delay = { program = "2A" }') -> Example:
    """A preset that wants program 2A of the delay on channel 3, and whose memory holds these.

    That is bank 0 and, on this controller's screen, number 6.
    """
    quoted = ", ".join(f'"{message}"' for message in messages)
    return board(DELAY, TO_DELAY, a_preset(1, "Overture", f"messages = [{quoted}]", goals))


BANK = ("3: control 0 = 0", "3: control 32 = 0")
"""Both bytes of bank 0."""
