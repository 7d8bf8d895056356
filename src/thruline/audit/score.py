"""How well some mistakes explain what was heard: the length of the shortest description.

What is described is the capture, given the rig: the mistakes; which of the messages that they
predict are missing (a line that loses a few explains itself at its own rate); and whatever came
that nobody predicts, each at the price of a whole message. Each bit halves the odds.
"""

from dataclasses import dataclass
from math import lgamma, log, log2

import numpy as np

from thruline.audit.fault import LIKELIHOOD, Family
from thruline.audit.meant import NO_KEY, Column

UNFORESEEN_BITS = 25.0
"""The price of a message that nobody predicts: which one it is, and when."""
SAYING_BITS = 3.5
"""The price of saying that there is one mistake more."""


@dataclass(frozen=True, slots=True, eq=False)
class Counted:
    """Keys, sorted, each once, with how often it is there."""

    keys: Column
    counts: Column

    def of(self, keys: Column) -> Column:
        """How often each of these is there."""
        if not self.keys.size:
            return np.zeros(keys.size, np.int64)
        places = np.minimum(np.searchsorted(self.keys, keys), self.keys.size - 1)
        return np.where(self.keys[places] == keys, self.counts[places], 0)


def counted(keys: Column) -> Counted:
    """Keys counted; NO_KEY is left out."""
    found, counts = np.unique(keys[keys != NO_KEY], return_counts=True)
    return Counted(found, counts.astype(np.int64))


@dataclass(frozen=True, slots=True)
class Fit:
    """How many messages are predicted, how many of them are missing, how many more came."""

    predicted: int
    missing: int
    unforeseen: int

    @property
    def bits(self) -> float:
        """The length of the description, the mistakes apart."""
        predicted, missing, more = self.predicted, self.missing, self.unforeseen
        which = _choose(predicted, missing) + log2(predicted + 1)
        return which + UNFORESEEN_BITS * more + 2 * log2(more + 2)


def _choose(total: int, some: int) -> float:
    """The bits that it takes to say which `some` of `total`."""
    return (lgamma(total + 1) - lgamma(some + 1) - lgamma(total - some + 1)) / log(2)


def fit(predicted: Counted, heard: Counted) -> Fit:
    """A prediction held against what was heard."""
    both = np.minimum(predicted.counts, heard.of(predicted.keys)).sum()
    total = int(predicted.counts.sum())
    return Fit(total, total - int(both), int(heard.counts.sum()) - int(both))


def changed_fit(
    before: Fit, predicted: Counted, heard: Counted, *, gone: Column, new: Column
) -> Fit:
    """The fit once some predicted keys are replaced, without counting everything again."""
    keys = np.concatenate((gone, new))
    signs = np.concatenate((np.full(gone.size, -1), np.full(new.size, 1)))
    live = keys != NO_KEY
    found, places = np.unique(keys[live], return_inverse=True)
    change = np.bincount(places, weights=signs[live], minlength=found.size).astype(np.int64)
    there, came = predicted.of(found), heard.of(found)
    both = int((np.minimum(there + change, came) - np.minimum(there, came)).sum())
    more = int(change.sum())
    return Fit(before.predicted + more, before.missing + more - both, before.unforeseen - both)


def fault_bits(family: Family, choices: int) -> float:
    """The price of one mistake: how rare its family is, and which of so many it is."""
    return -log2(LIKELIHOOD[family]) + log2(max(1, choices)) + SAYING_BITS
