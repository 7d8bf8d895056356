from thruline.outside.wall_clock import SystemClock


def test_it_comes_back_at_the_moment_and_not_before():
    clock = SystemClock()
    moment = clock.now_us() + 3_000
    clock.wait_until(moment)
    assert moment <= clock.now_us() < moment + 500_000


def test_what_is_past_is_not_waited_for():
    clock = SystemClock()
    before = clock.now_us()
    clock.wait_until(before - 1_000_000)
    assert clock.now_us() - before < 500_000
