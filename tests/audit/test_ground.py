import numpy as np
from hypothesis import given

from tests.audit.heard import MEANT, hearings, keys_with, some_faults
from thruline.audit.ground import ground
from thruline.audit.meant import NO_KEY
from thruline.audit.score import counted, fit


@given(hearings(), some_faults)
def test_what_is_gone_and_what_came_is_what_differs(hearing, faults):
    done, keys = hearing
    heard = counted(keys)
    found = ground(MEANT, faults, pressed=done, heard=heard)
    predicted = keys_with(faults, done)
    assert found.fit == fit(predicted, heard)
    assert found.came.counts.sum() == found.fit.unforeseen
    assert (found.came.counts == heard.of(found.came.keys) - predicted.of(found.came.keys)).all()
    assert (predicted.of(found.gone) > heard.of(found.gone)).all()
    assert set(found.keys[found.lacking].tolist()) - {NO_KEY} == set(found.gone.tolist())
    assert np.array_equal(found.keys, np.where(found.keys == NO_KEY, NO_KEY, found.everything))
