from tests.find.boards import make_board, meant
from thruline.find.rig_edits import cable_key, cut, cut_at, dead, deaf, with_cable, with_unit
from thruline.path.network import read_network
from thruline.rig.cable import Jack


def test_a_unit_that_is_not_there_changes_nothing():
    rig = make_board()
    assert with_unit(rig, "nobody", dead) is rig


def test_the_controller_is_changed_with_its_unit():
    rig = with_unit(make_board(), "feet", dead)
    assert rig.controller is rig.units["feet"]
    assert not read_network(rig).outputs_of("feet")[0].sends_own


def test_a_cut_lead_carries_nothing():
    rig = meant().rig
    key = cable_key(rig.cables[0])
    links = read_network(with_cable(rig, key, cut)).links
    assert [link.carries for link in links] == [False, True, True]


def test_a_dead_socket_spoils_whatever_is_plugged_in():
    links = read_network(cut_at(meant().rig, Jack("box-2", "midi-in"))).links
    assert [link.carries for link in links] == [True, False, True]


def test_a_unit_that_is_off_or_hangs_passes_nothing_on():
    for spoil in (dead, deaf):
        unit = with_unit(make_board(), "box-1", spoil).units["box-1"]
        assert not unit.chart.listens
        carriers = read_network(with_unit(make_board(), "box-1", spoil)).outputs_of("box-1")
        assert carriers[0].forwards is False
