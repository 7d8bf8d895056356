"""What may be heard on the small board: mistakes, presses that were not done, losses and strays."""

import numpy as np
from hypothesis import strategies as st

from tests.audit.boards import plan
from thruline.audit.build import build
from thruline.audit.fault import Family, Fault, in_order
from thruline.audit.listed import every_fault
from thruline.audit.meant import NO_KEY
from thruline.audit.score import counted

MEANT = plan()
EVERY = (*every_fault(MEANT), Fault(Family.NUMBER, 1, 21, 99), Fault(Family.NUMBER, 0, 20, 21))
ROWS = MEANT.rows.step.size
some_faults = st.lists(st.sampled_from(EVERY), max_size=2, unique=True).map(
    lambda found: in_order(tuple(found))
)
steps = st.sets(st.integers(0, len(MEANT.steps) - 1), min_size=1)
pressed = (st.just(set(range(len(MEANT.steps)))) | steps).map(
    lambda found: np.isin(np.arange(len(MEANT.steps)), list(found))
)
places = st.lists(st.integers(0, ROWS - 1), max_size=12)


@st.composite
def hearings(draw):
    """Which steps were pressed, and the keys that were heard."""
    done = draw(pressed)
    keys = build(MEANT, draw(some_faults), done)
    keys[draw(places)] = NO_KEY
    strays = build(MEANT, draw(some_faults), done)[draw(places)]
    keys = np.concatenate((keys, strays))
    return done, keys[keys != NO_KEY]


def keys_with(faults, done):
    """What would be heard with some mistakes."""
    return counted(build(MEANT, faults, done))
