"""How long a message is under way from a sender's line to a unit's input on an idle rig.

The sum over the hops: a wire copy adds its delay, a soft thru by the byte one byte and its latency,
a soft thru by the message the whole message and its latency.
"""

from typing import NamedTuple

from thruline.base.measures import BYTE_US


class Travel(NamedTuple):
    """`fixed_us` whatever the length, and how many hops wait for the whole message."""

    fixed_us: int = 0
    whole_hops: int = 0
    sender: int = 0
    """Which of the outputs that the controller chooses from it begins at."""

    def of(self, length: int) -> int:
        """Extra time in us for a message of this many bytes, after it has left the sender."""
        return self.fixed_us + self.whole_hops * BYTE_US * length
