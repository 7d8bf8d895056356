from hypothesis import given
from hypothesis import strategies as st

from thruline.learn.agree import agree, differing, own_time, pauses_before
from thruline.learn.parts import Message

SENT = [b"\xc0\x01", b"\xb0\x14\x40", b"\xb0\x15\x02", b"\xc1\x07"]


def press(data, *, start=0, step=1000):
    return [Message(start + place * step, one) for place, one in enumerate(data)]


def yes(_):
    return 1.0


@given(st.permutations(range(4)), st.integers(0, 3))
def test_what_most_presses_have_is_sent(order, lost):
    sent = [SENT[place] for place in order]
    presses = [press(sent, start=7), press(sent, start=99)]
    presses.append([one for place, one in enumerate(press(sent, start=500)) if place != lost])
    presses[0].append(Message(5000, b"\xb9\x33\x33"))
    found = agree(presses, lambda _: -1.0)
    assert [one.data for one in found] == sent
    assert found[0].at_us == 0
    assert all(one.is_sure for one in found)


def test_one_press_is_believed_as_far_as_it_is_plausible():
    found = agree([press(SENT)], lambda data: 1.0 if data[0] != 0xC1 else -1.0)
    assert [one.data for one in found] == SENT[:3]
    assert not any(one.is_sure for one in found)


def test_of_two_that_damage_could_have_made_of_each_other_the_better_stays():
    garbled = [b"\xc0\x01", b"\xb0\x14\x41", *SENT[2:]]
    worth = {b"\xb0\x14\x40": 2.0}
    found = agree([press(SENT), press(garbled)], lambda data: worth.get(data, 1.0))
    assert [one.data for one in found] == SENT
    assert len(agree([press(SENT), press(garbled)], yes)) == len(SENT)


def test_what_is_sent_twice_is_there_twice():
    twice = [SENT[0], SENT[1], SENT[0]]
    assert [one.data for one in agree([press(twice), press(twice)], yes)] == twice


def test_pauses_are_what_is_left_of_the_wait():
    data = [b"\xc0\x01", b"\xb0\x14\x40", b"\xb0\x15\x02"]
    times = [640, 640 + 960 + 150, 640 + 960 + 150 + 960 + 150 + 40_000]
    messages = [Message(at, one) for at, one in zip(times, data, strict=True)]
    found = agree([messages, messages], yes)
    assert own_time([found], running_status=False) == 150
    assert pauses_before(found, own_us=150, running_status=False) == [0, 0, 40]
    assert pauses_before(found, own_us=150, running_status=False, step_ms=25) == [0, 0, 50]
    assert pauses_before((), own_us=0, running_status=False) == []


def test_how_much_two_messages_differ():
    assert differing(b"\xc0\x01", b"\xc0\x03") == 1
    assert differing(b"\xc0\x01", b"\xb0\x01\x02") == 3
