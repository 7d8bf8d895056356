from thruline.learn.parts import Label, Message, Part
from thruline.learn.presses import Press, grouped, likeness, numbered, weigher

SENT = [b"\xc0\x01", b"\xb0\x14\x40", b"\xb0\x15\x02", b"\xc1\x07"]
OTHER = [b"\xc0\x02", b"\xb0\x14\x00", b"\xb0\x15\x09", b"\xc1\x01"]


def press(data, *, serial, label=None, malformed=0):
    messages = tuple(Message(place * 1000, one) for place, one in enumerate(data))
    part = Part(serial=serial, line=1, label=label, at_us=0, messages=messages, malformed=malformed)
    return Press(part, messages)


def test_what_a_person_said_goes_before_what_is_alike():
    presses = [press(SENT, serial=place, label=Label(place + 5, None)) for place in range(2)]
    assert [one.number for one in grouped(presses)] == [5, 6]


def test_equal_presses_are_one_preset_and_others_are_not():
    presses = [press(data, serial=place) for place, data in enumerate((SENT, OTHER, SENT))]
    found = grouped(presses)
    assert [one.serials for one in found] == [{0, 2}, {1}]
    assert [number for number, _ in numbered(found)] == [1, 2]


def test_a_lost_message_does_not_make_another_preset_on_a_damaged_line():
    presses = [press(SENT, serial=0), press(SENT[:3], serial=1, malformed=1)]
    assert len(grouped(presses)) == 1
    assert len(grouped([press(SENT, serial=0), press(SENT[:3], serial=1)])) == 2


def test_an_unnamed_press_goes_to_the_named_one_that_it_is_like():
    named = press(SENT, serial=0, label=Label(9, None, "Dawn"))
    (found,) = grouped([named, press(SENT, serial=1)])
    assert (found.number, found.name, found.serials) == (9, "Dawn", {0, 1})


def test_numbers_that_were_said_are_not_given_again():
    groups = grouped([press(SENT, serial=0, label=Label(1, None)), press(OTHER, serial=1)])
    assert sorted(number for number, _ in numbered(groups)) == [1, 2]


def test_a_message_is_plausible_by_its_like_and_by_the_charts():
    presses = [press(SENT, serial=place) for place in range(3)]
    presses.append(press([b"\xb0\x34\x05", b"\xe9\x01\x01"], serial=3, malformed=1))
    weigh = weigher(presses, lambda _: None)
    assert weigh(SENT[0]) > 0 > weigh(b"\xb0\x34\x05"), "one turned bit makes it of a common one"
    assert weigher(presses, lambda _: True)(b"\xb0\x34\x05") > 0
    assert weigher(presses, lambda _: False)(b"\xe9\x01\x01") < 0


def test_likeness_is_the_control_and_not_its_value():
    assert likeness(b"\xb0\x14\x40") == likeness(b"\xb0\x14\x00")
    assert likeness(b"\xc0\x01") == likeness(b"\xc0\x02")


def once(*more):
    """Named presses of six presets that all send the same kinds, the first with something else."""
    kinds = [b"\xc0%c" % n for n in range(6)], [b"\xb0\x14%c" % n for n in range(6)]
    found = [
        press([program, control], serial=place, label=Label(place + 1, None), malformed=1)
        for place, (program, control) in enumerate(zip(*kinds, strict=True))
    ]
    return [press(list(more), serial=0, label=Label(1, None), malformed=1), *found[1:]]


def test_of_presets_pressed_once_what_is_new_counts_unless_it_stands_for_what_lacks():
    beside = weigher(once(b"\xc0\x00", b"\xb0\x14\x00", b"\xb0\x34\x05"), lambda _: None)
    assert beside(b"\xb0\x34\x05") > 0, "the control that it might have been is there as well"
    instead = weigher(once(b"\xc0\x00", b"\xb0\x34\x05"), lambda _: None)
    assert instead(b"\xb0\x34\x05") < 0, "all others have 14, and this has 34 in its place"
    far = weigher(once(b"\xc0\x00", b"\xb0\x35\x05"), lambda _: None)
    assert far(b"\xb0\x35\x05") > 0, "two bits are not turned at once"
    turned = weigher(once(b"\xb0\x14\x00", b"\xd0\x05"), lambda _: None)
    assert turned(b"\xd0\x05") < 0, "a status byte with a bit turned"
    assert weigher(once(b"\xf6"), lambda _: None)(b"\xf6") > 0
    twice = [*once(b"\xb0\x34\x05"), press([b"\xc0\x00"], serial=9, label=Label(1, None))]
    assert weigher(twice, lambda _: None)(b"\xb0\x34\x05") < 0, "the other press is without it"
