"""Some mistakes held against what was heard: what they predict, what is gone, what came besides."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from thruline.audit.build import build, step_in
from thruline.audit.fault import Fault
from thruline.audit.meant import NO_KEY, Column, Mask, Meant
from thruline.audit.score import Counted, Fit, counted, fit


@dataclass(frozen=True, kw_only=True, eq=False)
class Ground:
    """What some mistakes predict, by row: `everything` if all were pressed, `keys` as it was."""

    meant: Meant
    faults: tuple[Fault, ...]
    pressed: Mask
    heard: Counted
    everything: Column
    keys: Column
    predicted: Counted
    fit: Fit

    @cached_property
    def _is_short(self) -> Mask:
        """Which of the predicted keys are heard less often than they should be."""
        found: Mask = self.predicted.counts > self.heard.of(self.predicted.keys)
        return found

    @cached_property
    def lacking(self) -> Mask:
        """The rows that are heard less often than they should be, or are not to be heard."""
        found: Mask = self.keys == NO_KEY
        heard = ~found
        found[heard] = self._is_short[np.searchsorted(self.predicted.keys, self.keys[heard])]
        return found

    @cached_property
    def gone(self) -> Column:
        """Keys that should be heard more often."""
        return self.predicted.keys[self._is_short]

    @cached_property
    def came(self) -> Counted:
        """Keys that are heard more often than they should be, and how much more."""
        more = self.heard.counts - self.predicted.of(self.heard.keys)
        return Counted(self.heard.keys[more > 0], more[more > 0])


def ground(meant: Meant, faults: tuple[Fault, ...], *, pressed: Mask, heard: Counted) -> Ground:
    """Hold some mistakes against what was heard at the steps that were pressed."""
    everything = build(meant, faults, np.ones_like(pressed))
    keys = np.where(pressed[step_in(everything)], everything, NO_KEY)
    predicted = counted(keys)
    return Ground(
        meant=meant,
        faults=faults,
        pressed=pressed,
        heard=heard,
        everything=everything,
        keys=keys,
        predicted=predicted,
        fit=fit(predicted, heard),
    )
