from tests.find.boards import meant, suspect
from thruline.find.kinds import Kind
from thruline.find.suspect import put_in, send_instead


def test_the_words_name_the_thing_and_the_value_to_set():
    one = suspect(Kind.CHANNEL_ABOVE, "box-2")
    assert one.says == "Orchard Bramley is set one channel too high"
    assert one.mend.endswith(": 3")
    assert one.mend_key == suspect(Kind.CHANNEL_BELOW, "box-2").mend_key


def test_a_fault_of_the_board_changes_the_board_alone():
    one = suspect(Kind.CHANNEL_ABOVE, "box-2")
    rig = put_in(meant().rig, one.changes)
    assert rig.units["box-2"].channel == 4
    assert rig.units["box-1"] is meant().rig.units["box-1"]
    assert send_instead(meant().sendings, one.changes) == meant().sendings


def test_a_fault_of_the_memory_changes_what_is_sent_alone():
    one = suspect(Kind.ENTRY_MISSING, "box-2")
    assert put_in(meant().rig, one.changes) is meant().rig
    sent = send_instead(meant().sendings, one.changes)
    assert {item.unit for item in sent[1]} == {"box-1", "box-3"}


def test_what_comes_and_goes():
    assert suspect(Kind.CABLE_LOOSE).sometimes
    assert not suspect(Kind.CABLE_OPEN).sometimes


def test_a_cut_lead_and_a_unit_without_power_are_alike_for_who_hears_whom():
    assert suspect(Kind.CABLE_OPEN, "box-1").alike == suspect(Kind.NO_POWER, "box-2").alike
    assert suspect(Kind.NO_POWER, "box-1").alike != suspect(Kind.NO_POWER, "box-2").alike
