from tests.find.boards import meant, suspect
from thruline.find.kinds import Kind
from thruline.find.scene import TOOL, Plugged, Scene, input_of, set_up, tool_for
from thruline.path.network import read_network
from thruline.rig.cable import Jack

RIG, NETWORK = meant().rig, meant().case.board.network


def test_straight_in_leaves_two_units_and_a_lead_that_works():
    rig = set_up(RIG, Scene(Plugged.STRAIGHT_IN, "box-3"), NETWORK)
    assert set(rig.units) == {"feet", "box-3"}
    assert [link.carries for link in read_network(rig).links] == [True]


def test_the_computer_takes_the_place_of_the_controller():
    rig = set_up(RIG, Scene(Plugged.TOOL_IN, "box-2"), NETWORK)
    assert rig.controller is not None
    assert rig.controller.id == TOOL
    assert [link.carries for link in read_network(rig).links] == [True]


def test_what_is_out_of_the_way_takes_its_faults_along():
    cable = suspect(Kind.CABLE_OPEN, "feet").changes[0]
    channel = suspect(Kind.CHANNEL_ABOVE, "box-2").changes[0]
    swapped = Scene(Plugged.CABLE_SWAPPED, cable.on)
    assert not swapped.keeps(cable, RIG)
    assert swapped.keeps(channel, RIG)
    straight = Scene(Plugged.STRAIGHT_IN, "box-2")
    assert straight.keeps(channel, RIG)
    assert not straight.keeps(cable, RIG)
    assert not Scene(Plugged.TOOL_IN, "box-1").keeps(channel, RIG)


def test_the_input_in_use():
    assert input_of(NETWORK, "box-2") == Jack("box-2", "midi-in")
    assert input_of(NETWORK, "treadle") is None


def test_a_rig_without_a_controller_has_no_computer_in_its_place():
    assert tool_for(RIG) is not None
