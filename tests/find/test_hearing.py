from tests.find.boards import meant
from thruline.find.hearing import clocks_at, dump_comes, sensed, wants_dumps
from thruline.find.rig_edits import cut_at
from thruline.path.network import read_network
from thruline.rig.cable import Jack

RIG, NETWORK = meant().rig, meant().case.board.network


def test_the_clock_of_the_controller_comes_to_every_unit():
    assert {clocks_at(RIG, NETWORK, one) for one in ("box-1", "box-2", "box-3")} == {1}


def test_nothing_comes_over_a_dead_socket():
    cut = cut_at(RIG, Jack("box-1", "midi-out"))
    network = read_network(cut)
    assert (clocks_at(cut, network, "box-1"), clocks_at(cut, network, "box-2")) == (1, 0)
    assert dump_comes(cut, network, "box-1")
    assert not dump_comes(cut, network, "box-2")


def test_who_sends_no_active_sensing_senses_nobody():
    assert sensed(RIG, NETWORK) == frozenset()


def test_only_units_that_take_dumps_want_them():
    assert {one.id for one in RIG.units.values() if wants_dumps(one)} == {"box-1", "box-2", "box-3"}
