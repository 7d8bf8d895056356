from hypothesis import given
from hypothesis import strategies as st

from tests.find.boards import meant
from thruline.find.played import play_all
from thruline.find.worlds import Worlds

WORLD = Worlds(meant()).world()
ITEMS = [*meant().sendings[1]]


@given(st.lists(st.lists(st.sampled_from(ITEMS), max_size=6).map(tuple), min_size=2, max_size=5))
def test_many_at_once_are_as_each_by_itself(sendings):
    together = play_all(WORLD, sendings)
    for items, one in zip(sendings, together, strict=True):
        alone = play_all(WORLD, [items])[0]
        for unit in ("box-1", "box-2", "box-3", "treadle"):
            assert one.at(unit) == alone.at(unit)


def test_every_unit_of_a_line_hears_everything():
    played = play_all(WORLD, [tuple(ITEMS)])[0]
    for unit in ("box-1", "box-2", "box-3"):
        assert [one.data for one in played.at(unit)] == [item.data for item in ITEMS]
