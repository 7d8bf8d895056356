from itertools import permutations

from thruline.audit.fault import LIKELIHOOD, ORDER, Family, Fault, in_order


def test_every_family_has_a_likelihood_and_all_make_one():
    assert set(LIKELIHOOD) == set(ORDER) == set(Family)
    assert abs(sum(LIKELIHOOD.values()) - 1) < 1e-9


def test_the_order_does_not_depend_on_the_finding():
    some = (Fault(Family.SHUT, 1), Fault(Family.STALE, 2), Fault(Family.CHANNEL, 0, 3))
    assert {in_order(one) for one in permutations(some)} == {(some[1], some[2], some[0])}
