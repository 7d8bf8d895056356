from tests.find.boards import meant
from thruline.find.kinds import Kind
from thruline.find.suspect import Reach, put_in
from thruline.find.unit_suspects import off, unit_suspects

FOUND = tuple(unit_suspects(meant()))


def test_every_menu_item_can_stand_wrongly():
    mine = {one.kind for one in FOUND if one.on.startswith("box-2")}
    assert {
        Kind.OUTPUT_NOT_PASSING, Kind.PROGRAMS_OFF, Kind.CONTROLS_OFF, Kind.OMNI_ON,
        Kind.CLOCK_IN_OFF, Kind.CHANNEL_ABOVE, Kind.CHANNEL_BELOW, Kind.NUMBERS_ONE_UP,
        Kind.NUMBERS_MAPPED, Kind.FROZEN, Kind.UNIT_DEAD, Kind.LOADS_SLOWLY, Kind.NOT_STORED,
    } <= mine  # fmt: skip


def test_the_output_of_the_last_unit_does_not_matter():
    assert not any(one.kind is Kind.OUTPUT_NOT_PASSING and "box-3" in one.on for one in FOUND)


def test_every_change_changes_the_rig():
    for one in FOUND:
        if one.changes:
            assert put_in(meant().rig, one.changes) != meant().rig, one.id


def test_only_what_others_notice_reaches_the_wires():
    for one in FOUND:
        if one.kind is Kind.CHANNEL_ABOVE:
            assert one.changes[0].reach is Reach.EAR
        if one.kind is Kind.OUTPUT_NOT_PASSING:
            assert one.changes[0].reach is Reach.WIRES


def test_the_controller_without_power_is_like_no_cut_lead():
    assert off(meant(), meant().rig.units["feet"]).alike == ""
    assert off(meant(), meant().rig.units["box-1"]).alike == "cut feet.midi-out>box-1.midi-in"
