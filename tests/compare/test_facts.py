"""A board as facts."""

from tests.opening import open_text
from thruline.compare.facts import Key, Part, facts_of
from thruline.path.routing import EVERYWHERE
from thruline.proof.example_boards import (
    DELAY,
    TO_DELAY,
    a_preset,
    a_song,
    a_sweep,
    a_unit,
    an_audio_path,
    board,
)

MOVE = 'unit = "delay", control = "mix", heel = 0, toe = "80%"'
PIECES = (
    DELAY, TO_DELAY, a_preset(1, "One", 'delay = "11B"'), a_preset(2, "Two"),
    a_sweep("Swell", MOVE), a_song("Opening", "[1, 2]"), an_audio_path("guitar", "delay", "amp"),
)  # fmt: skip


def rig_of(*pieces):
    return open_text(board(*pieces).rig).rig


def facts(*pieces, **more):
    return facts_of(rig_of(*pieces), EVERYWHERE, {1: ("One", (), ())}, **more)


def test_every_part_has_its_facts():
    found = facts(*PIECES, a_unit("other", "russet-drive", "place = { x = 1, y = 2 }"))
    assert {key.part for key in found} == set(Part) - {Part.OUTPUT}
    assert found[Key(Part.UNIT, "delay")] == "bramley-delay"
    assert found[Key(Part.CHANNEL, "delay")] == 3
    chart = rig_of(DELAY).units["delay"].chart
    for setting in chart.settings.values():
        assert found[Key(Part.SETTING, "delay", setting.id)] == setting.factory
    assert found[Key(Part.PLACE, "other")] == (1, 2, 0)
    assert found[Key(Part.SOUND, "")] == ("guitar", "delay", "amp")
    assert found[Key(Part.PEDAL, "feet.exp-1", "2")] == (
        (3, chart.controls["mix"].number, 0, 102, ("linear", ()), ""),
    )


def test_pedals_are_left_out_with_their_controller():
    assert not [key for key in facts(*PIECES, is_entered=False) if key.part is Part.PEDAL]


def test_two_cables_between_the_same_sockets_are_two_facts():
    found = facts(DELAY, TO_DELAY, TO_DELAY)
    assert len([key for key in found if key.part is Part.CABLE]) == 2


def test_what_is_only_said_is_no_fact():
    assert facts(DELAY) == facts(DELAY.replace("channel", 'about = "old"\nchannel'))
