import numpy as np

from tests.sameness.scenes import Scene, hand, scene, table
from thruline.sameness.codes import KEEPS, NOTHING
from thruline.sameness.cover import PLACES, Cover

KEPT = [(KEEPS,)] * 3


def cover(one: Scene) -> Cover:
    return table(one).cover


def test_without_a_sweep_every_place_is_a_cell() -> None:
    found = cover(scene(*KEPT))
    assert found.still.tolist() == [[PLACES]] * 3
    assert found.low[0] > found.high[0]


def test_a_sweep_leaves_one_cell_unmoved() -> None:
    found = cover(scene(*KEPT, hands=[hand(0, [20, 90], 1)]))
    assert found.still[:, 0].tolist() == [PLACES, 1, PLACES]
    assert (found.low[0], found.high[0]) == (20, 90)
    assert not found.follows.any()


def test_a_place_that_is_sent_leaves_none() -> None:
    found = cover(scene(*KEPT, hands=[hand(0, [20, 90], 1, on_recall=True)]))
    assert found.still[:, 0].tolist() == [PLACES, 0, PLACES]
    assert np.array_equal(found.follows, found.decides)


def test_a_place_that_is_not_obeyed_decides_nothing() -> None:
    gap = hand(0, [20, NOTHING, 90], 1, on_recall=True)
    found = cover(scene(*KEPT, hands=[gap]))
    assert found.follows[1, 0]
    assert not found.decides[1, 0]
    closed = hand(0, [NOTHING, 50, NOTHING], 1, on_recall=True)
    assert cover(scene(*KEPT, hands=[gap, closed])).decides[1, 0]


def test_in_step() -> None:
    everywhere, some = hand(0, [0, 127], 0, 1, 2), hand(0, [0, 127], 0, 1)
    rest, turned = hand(0, [0, 127], 2), hand(0, [127, 0], 2)
    other_pedal = hand(0, [0, 127], 2, pedal=2)
    assert cover(scene(*KEPT, hands=[everywhere])).in_step.all()
    assert cover(scene(*KEPT, hands=[some, rest])).in_step.all()
    for hands in ([some], [some, turned], [some, other_pedal]):
        assert not cover(scene(*KEPT, hands=hands)).in_step.any()
