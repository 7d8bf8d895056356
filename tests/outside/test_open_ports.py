"""One port that is open, at a made-up library that says nothing, as the real one."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.outside.library import ALSA, CORE, JACK, MM, Library, system_of
from tests.wires.in_memory import Script
from thruline.bench.face import PortGone
from thruline.bench.plugged import HeldInput, HeldOutput
from thruline.bench.send import Planned
from thruline.bench.several import WATCH_US, Way, play_parted
from thruline.outside.open_ports import (
    ANSWER_EVERY_US,
    JOINING_US,
    LOOK_EVERY_US,
    UNSEEN_US,
    Stamps,
)

gaps = st.lists(st.integers(0, 2_000_000), min_size=1, max_size=60)


@given(gaps, st.integers(0, 10**9), st.data())
def test_a_message_is_never_stamped_after_it_was_fetched(since, begin, data):
    stamps, true_us, last, fetched = Stamps(), begin, 0, 0
    for gap in since:
        true_us += gap
        fetched = max(fetched, true_us + data.draw(st.integers(0, 5_000)))
        found = stamps.stamp(gap, fetched)
        assert max(last, true_us) <= found <= fetched
        last = found


def test_lags_of_fetching_do_not_show():
    stamps = Stamps()
    lags = [0, 900, 4000, 20, 3000]
    found = [stamps.stamp(1000, 1000 * n + lag) for n, lag in enumerate(lags, 1)]
    assert found == [1000, 2000, 3000, 4000, 5000]


EVERY_SYSTEM = pytest.mark.parametrize("api", [ALSA, JACK, CORE, MM])


def held_of(monkeypatch, api, *names):
    """A made-up library, its clock, and its first port, held."""
    library, clock = Library(api, *names), Script()
    ports = system_of(monkeypatch, clock, library)
    return library, clock, HeldOutput(ports, ports.outputs()[0])


def preset(*gaps):
    """A message after each of these gaps, us."""
    return [Planned(sum(gaps[: at + 1]), bytes((0xC0, at % 128))) for at in range(len(gaps))]


@EVERY_SYSTEM
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(st.integers(1_000, 1_500_000), min_size=1, max_size=6),
    st.integers(0, 8_000_000),
    st.integers(UNSEEN_US, 4_000_000),
)
def test_whenever_a_box_is_pulled_it_is_told_or_everything_came(api, gaps, pulled_us, away_us):
    with pytest.MonkeyPatch.context() as patch:
        library, clock, held = held_of(patch, api, "Treadle")
        (box,) = library.boxes
        clock.at(pulled_us, lambda: library.unplug(box))
        clock.at(pulled_us + away_us, lambda: library.plug_in(box))
        plan = preset(*gaps)
        for _ in range(4):
            box.got.clear()
            (took,) = play_parted(plan, [Way(held)], clock)
            assert took.trouble or box.got == [one.data for one in plan]
            clock.wait_until(clock.now_us() + 3_000_000)  # a person reads, and asks for the next
        held.close()
        assert library.crashes == 0
        box.got.clear()
    assert clock.now_us() > 8_000_000


@EVERY_SYSTEM
def test_pulled_just_before_a_sending_it_is_told_in_this_one(monkeypatch, api):
    library, clock, held = held_of(monkeypatch, api, "Treadle")
    held.look()
    held.send(b"\xc0\x01")
    library.unplug(library.boxes[0])
    clock.wait_until(clock.now_us() + 1_000)
    (took,) = play_parted(preset(0), [Way(held)], clock)
    assert (took.count, "is gone; plug it in again" in took.trouble) == (0, True)
    library.plug_in(library.boxes[0])
    (took,) = play_parted(preset(0), [Way(held)], clock)
    assert (took.count, took.trouble) == (1, "")
    assert library.boxes[0].got == [b"\xc0\x01", b"\xc0\x00"]


@EVERY_SYSTEM
def test_pulled_right_behind_the_last_message_it_is_told_too(monkeypatch, api):
    library, clock, held = held_of(monkeypatch, api, "Treadle")
    held.look()
    clock.at(clock.now_us() + 1_010, lambda: library.unplug(library.boxes[0]))
    (took,) = play_parted(preset(0, 1_000), [Way(held)], clock)
    assert (took.count, "is gone" in took.trouble) == (2, True)


@EVERY_SYSTEM
def test_what_came_back_while_nobody_looked_is_opened_anew(monkeypatch, api):
    library, clock, held = held_of(monkeypatch, api, "Treadle")
    held.look()
    (box,) = library.boxes
    number = box.number
    library.unplug(box)
    library.plug_in(box)
    box.number = number  # under its very name
    clock.wait_until(clock.now_us() + UNSEEN_US + JOINING_US)
    held.look()
    held.send(b"\xc0\x01")
    assert box.got == [b"\xc0\x01"]


def test_the_first_message_leaves_once_the_port_takes_part_and_gaps_are_kept(monkeypatch):
    _library, clock, held = held_of(monkeypatch, JACK, "Treadle")
    handed = []
    monkeypatch.setattr(HeldOutput, "send", lambda _, data: handed.append(clock.now_us()))
    play_parted(preset(0, 1_000, 30_000), [Way(held)], clock)
    assert handed == [JOINING_US, JOINING_US + 1_000, JOINING_US + 31_000]


def test_asking_is_rare_while_much_is_sent(monkeypatch):
    library, clock, held = held_of(monkeypatch, JACK, "Treadle")
    held.look()
    before = library.asked
    play_parted(preset(*[1_000] * 400), [Way(held)], clock, lands=False)
    assert library.asked - before <= 3, "before, after, and in the middle"
    assert WATCH_US < LOOK_EVERY_US < UNSEEN_US


@pytest.mark.parametrize("comes_back", [False, True])
def test_a_server_that_dies_takes_its_ports_along(monkeypatch, comes_back):
    library, clock, held = held_of(monkeypatch, JACK, "Treadle")
    listens = HeldInput(system_of(monkeypatch, clock, library), "Treadle:midi", clock)
    assert play_parted(preset(0), [Way(held)], clock)[0].trouble == ""
    library.die()
    if comes_back:
        library.begin_anew()
    (took,) = play_parted(preset(0), [Way(held)], clock)
    assert "its MIDI system stopped or began anew" in took.trouble
    clock.wait_until(clock.now_us() + ANSWER_EVERY_US)
    assert listens.take()[1] == "gone"
    if not comes_back:
        with pytest.raises(PortGone):
            held.look()
        library.begin_anew()
    clock.wait_until(clock.now_us() + ANSWER_EVERY_US)
    assert listens.take()[1] == "back"
    library.boxes[0].got.clear()
    assert play_parted(preset(0), [Way(held)], clock)[0].trouble == ""
    assert library.boxes[0].got == [b"\xc0\x00"]
    held.close()
    listens.close()
    assert library.crashes == 0, "what a dead server gave is never taken down"
