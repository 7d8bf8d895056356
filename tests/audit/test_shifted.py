from hypothesis import given
from hypothesis import strategies as st

from tests.audit.heard import EVERY, MEANT, hearings, keys_with, some_faults
from thruline.audit.fault import Family
from thruline.audit.ground import ground
from thruline.audit.score import counted, fit
from thruline.audit.shifted import fits_shifted

SLOTS = [one for one in EVERY if one.family is Family.SLOTS]


@given(hearings(), some_faults | st.sampled_from(SLOTS).map(lambda one: (one,)))
def test_what_adds_up_over_presets_is_what_building_them_gives(hearing, faults):
    done, keys = hearing
    heard = counted(keys)
    found = fits_shifted(ground(MEANT, faults, pressed=done, heard=heard))
    more = [one for one in SLOTS if one not in faults]
    assert {one: found[one] for one in more} == {
        one: fit(keys_with((*faults, one), done), heard) for one in more
    }
