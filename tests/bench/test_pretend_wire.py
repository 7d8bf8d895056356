import pytest

from tests.audit.boards import board, plan
from thruline.audit.fault import ALL, PROGRAMS, Family, Fault
from thruline.bench.pretend_wire import Wire
from thruline.proof.case import Case

MEANT = plan("feet.midi-out", "b.midi-in", "c.midi-out")
CASE = Case(board())
ITEMS = [one.sending.items for one in CASE.runs()[:3]]


def line(name):
    return [str(jack) for jack in MEANT.lines].index(name)


def test_every_tap_hears_everything_later_down_the_line():
    for items, heard in zip(ITEMS, Wire(MEANT, ()).play(ITEMS), strict=True):
        assert [one.at_us for one in heard] == sorted(one.at_us for one in heard)
        ends = []
        for tap in range(3):
            here = [one for one in heard if one.tap == tap]
            assert [one.data for one in here] == [one.data for one in items]
            ends.append(here[-1].at_us)
        assert ends[0] < ends[1] < ends[2]


@pytest.mark.parametrize(
    ("fault", "left"),
    [
        (Fault(Family.SHUT, line("b.midi-out"), ALL), lambda data: False),
        (Fault(Family.SHUT, line("b.midi-out"), PROGRAMS), lambda data: data[0] >> 4 != 0xC),
        (Fault(Family.SWALLOWED, line("b.midi-out")), lambda data: data[0] & 0x0F != 2),
    ],
)
def test_an_output_on_the_way_keeps_back_what_it_should(fault, left):
    heard = Wire(MEANT, [fault]).play(ITEMS)
    for items, one in zip(ITEMS, heard, strict=True):
        by_tap = [[each.data for each in one if each.tap == tap] for tap in range(3)]
        sent = [item.data for item in items]
        assert by_tap[0] == by_tap[1] == sent
        assert by_tap[2] == [data for data in sent if left(data)]


def test_nothing_is_played_of_nothing():
    assert Wire(MEANT, ()).play([]) == []
    assert Wire(MEANT, ()).play([[]]) == [[]]
