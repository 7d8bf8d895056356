from hypothesis import given
from hypothesis import strategies as st

from tests.find.boards import meant, suspect
from thruline.find.kinds import Kind
from thruline.find.played import play_all
from thruline.find.worlds import Worlds
from thruline.rig.cable import Jack

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


def test_nothing_passes_what_lies_behind_a_cut_lead():
    worlds = Worlds(meant())
    lead = suspect(Kind.CABLE_OPEN, "box-1.midi-out").changes
    played = play_all(worlds.world(lead), [tuple(ITEMS)])[0]
    idle = [one for one in ("box-1", "box-2", "box-3") if played.is_idle(Jack(one, "midi-in"))]
    assert idle == ["box-2", "box-3"]
    assert played.is_idle(Jack("box-2", "midi-out"))
    assert not played.is_idle(Jack("feet", "midi-out"))
