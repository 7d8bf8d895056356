from thruline.rig.readings import Part, readings_of
from thruline.rig.values import Control, ControlMessage

MIX = Control(id="mix", name="Mix", number=14)
TIME = Control(id="time", name="Time", number=16, message=ControlMessage.CC14, high=16383)
GLIDE = Control(id="glide", name="Glide", number=1030, message=ControlMessage.NRPN)
FINE = Control(id="fine", name="Fine", number=48)
TABLE = readings_of({one.id: one for one in (MIX, TIME, GLIDE, FINE)})


def test_a_plain_control_is_carried_whole():
    assert [(one.control, one.part) for one in TABLE.plain[14]] == [(MIX, Part.WHOLE)]


def test_a_pair_has_a_coarse_and_a_fine_number():
    assert [(one.control, one.part) for one in TABLE.plain[16]] == [(TIME, Part.COARSE)]


def test_two_controls_on_one_number_are_both_there():
    assert [one.control for one in TABLE.plain[48]] == [TIME, FINE]


def test_parameters_are_found_by_kind_and_number():
    assert TABLE.parameters == {(ControlMessage.NRPN, 1030): GLIDE}
    assert 1030 not in TABLE.plain
