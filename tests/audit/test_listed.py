import numpy as np
import pytest

from tests.audit.boards import plan
from thruline.audit.build import build
from thruline.audit.fault import Family, Fault
from thruline.audit.ground import ground
from thruline.audit.listed import choices, every_fault, kin_of, read_off
from thruline.audit.score import counted

MEANT = plan()
ALL = np.ones(len(MEANT.steps), np.bool_)
EVERY = tuple(every_fault(MEANT))


def test_each_is_listed_once_and_of_every_family_but_one():
    assert len(set(EVERY)) == len(EVERY)
    assert {one.family for one in EVERY} == set(Family) - {Family.NUMBER}


def test_choices_are_counted():
    found = choices(MEANT, kin_of(EVERY))
    assert set(found) == set(Family)
    assert sum(found.values()) - found[Family.NUMBER] == len(EVERY)
    assert found[Family.NUMBER] % 127 == 0


@pytest.mark.parametrize(
    "others", [(), (Fault(Family.CHANNEL, 1, 9),), (Fault(Family.SWAPPED, 0, 1),)]
)
def test_a_wrong_number_is_read_off_what_came(others):
    number = Fault(Family.NUMBER, 1, 21, 99)
    heard = counted(build(MEANT, (number, *others), ALL))
    held = ground(MEANT, others, pressed=ALL, heard=heard)
    assert number in read_off(MEANT, others, gone=held.gone, came=held.came.keys)


def test_kin_are_all_faults_by_family():
    kin = kin_of(EVERY)
    assert {one.family for one in EVERY} == {one.family for one in kin}
    assert sorted(fault for one in kin for fault in one.faults) == sorted(EVERY)
    for one in kin:
        assert [fault.first for fault in one.faults] == one.first.tolist()
        assert [fault.second for fault in one.faults] == one.second.tolist()
