"""One sending shared out among the outputs that a controller chooses from.

The controller works through its list as ever: it hands over a message when the one before has left,
whichever output that left by. So the moments are those of one list, and each output is a sender
that has some of the messages. A message for no unit in particular leaves by all of them.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from thruline.timing.roads import Roads
from thruline.timing.sending import Item
from thruline.timing.traffic import Batch, Numbers, Traffic, Truths, batch, traffic


def shares_of(roads: Roads, items: Sequence[Item]) -> list[Truths]:
    """For each sender which of the messages are its own."""
    if roads.senders == 1:
        return [np.ones(len(items), np.bool_)]
    senders = np.array([roads.sender_of.get(item.unit or "", -1) for item in items], np.int64)
    return [(senders == one) | (senders < 0) for one in range(roads.senders)]


def traffic_of(roads: Roads, items: Sequence[Item], ready_us: ArrayLike) -> list[Traffic]:
    """The traffic of each sender; a message is called by its place in `items`."""
    ready = np.asarray(ready_us, np.int64)
    length = np.array([len(item.data) for item in items], np.int64)
    status = np.array([item.data[0] for item in items], np.int64)
    if roads.senders == 1:
        return [traffic(ready, length, status=status)]
    return [
        traffic(ready[own], length[own], status=status[own], ident=np.flatnonzero(own))
        for own in shares_of(roads, items)
    ]


def batches_of(
    roads: Roads,
    rows: Sequence[Sequence[Item]],
    *,
    ready_us: Numbers,
    length: Numbers,
    status: Numbers,
) -> list[Batch]:
    """The batch of each sender, from tables with a row for each list of messages.

    What is not a sender's own is padding to it. A message is called by its place in the table;
    that of the next sender begins where the one before ends (see `place_in_table`).
    """
    if roads.senders == 1:
        return [batch(ready_us, length, status=status)]
    there = length > 0
    shares = shares_of(roads, [item for row in rows for item in row])
    found = []
    for own in shares:
        mine = np.zeros(length.shape, np.int64)
        mine[there] = np.where(own, length[there], 0)
        found.append(batch(ready_us, mine, status=status))
    return found


def place_in_table(ident: Numbers, cells: int) -> Numbers:
    """Where messages of `batches_of` stand in the table of `cells` cells, whoever sent them."""
    return ident % cells if cells else ident
