from thruline.base.address import at
from thruline.base.edit import Edit, EditKind, add_to, remove, set_to

CHANNEL = at("unit", "delay").child("channel")


def test_setting() -> None:
    assert set_to(CHANNEL, 3) == Edit(EditKind.SET, CHANNEL, 3)


def test_adding() -> None:
    cable = {"from": "feet.midi-out", "to": "delay.midi-in"}
    assert add_to(at("cable"), cable) == Edit(EditKind.ADD, at("cable"), cable)


def test_removing_carries_no_value() -> None:
    assert remove(CHANNEL) == Edit(EditKind.REMOVE, CHANNEL, None)
