from thruline.timing.travel import Travel


def test_a_hop_that_waits_for_the_message_costs_its_length():
    assert Travel().of(3) == 0
    assert Travel(fixed_us=100).of(3) == 100
    assert Travel(fixed_us=100, whole_hops=2).of(3) == 100 + 2 * 3 * 320
