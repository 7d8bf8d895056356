import tomllib

import pytest

from tests.opening import open_text, with_head
from thruline.app.mend import after_edits, state_of
from thruline.app.unit_removal import going_with, removed_unit
from thruline.base.errors import CannotUse
from thruline.outside.samples import AS_FOUND, sample_text
from thruline.proof.example_boards import (
    DELAY,
    DELAY_TO_REVERB,
    REVERB,
    TO_DELAY,
    a_preset,
    a_sweep,
    an_audio_path,
    board,
)

MIX = 'unit = "delay", control = "mix", heel = 0, toe = 100'
BOTH = board(
    DELAY,
    REVERB,
    TO_DELAY,
    TO_DELAY,
    DELAY_TO_REVERB,
    a_preset(1, "Overture", 'delay = "2A"', 'reverb = "31"'),
    a_preset(2, "Song", "delay = { mix = 9 }"),
    a_sweep("Swell", MIX),
    a_sweep("Wash", MIX, MIX.replace("delay", "reverb"), MIX),
    an_audio_path("guitar", "feet.loop-1[delay, reverb]", "delay", "amp"),
).rig


def state(text):
    return state_of(open_text(with_head(text)))


def after(text, unit):
    one = state(text)
    return after_edits(one, removed_unit(one, unit)).opened.document.data


def test_all_that_hangs_on_a_unit_is_said():
    assert [one.says for one in going_with(state(BOTH), "delay")] == [
        "the cable from delay.midi-thru to reverb.midi-in",
        "the cable from feet.midi-out-1 to delay.midi-in",
        "the cable from feet.midi-out-1 to delay.midi-in",
        "what 2 presets want of it",
        'the moves of mix and mix in the sweep "Wash"',
        'the sweep "Swell"',
        "its place in the way of the sound",
    ]


def test_what_is_left_names_the_unit_nowhere():
    left = after(BOTH, "delay")
    assert "delay" not in str(left)
    assert "cable" not in left
    assert left["preset"] == [
        {"number": 1, "name": "Overture", "reverb": "31"},
        {"number": 2, "name": "Song"},
    ]
    assert [one["name"] for one in left["sweep"]] == ["Wash"]
    assert left["audio"]["path"] == ["guitar", "feet.loop-1[reverb]", "amp"]


def test_what_hung_in_its_loops_stays_on_the_way_of_the_sound():
    left = after(BOTH, "feet")
    assert left["audio"]["path"] == ["guitar", "delay", "reverb", "delay", "amp"]
    assert "sweep" not in left


def test_every_unit_of_a_real_board_goes_without_a_new_lost_name():
    before = state_of(open_text(sample_text(AS_FOUND)))
    lost = {one.rule for one in before.proof.findings if "unknown" in one.rule}
    for unit in set(before.opened.rig.units) - {before.opened.document.data["rig"]["controller"]}:
        one = after_edits(before, removed_unit(before, unit))
        assert unit not in one.opened.rig.units
        rules = {found.rule for found in one.proof.findings if "unknown" in found.rule}
        assert rules <= lost
        assert tomllib.loads(one.opened.document.text) == one.opened.document.data


def test_a_unit_that_nothing_hangs_on_goes_alone():
    alone = state(board(DELAY, REVERB).rig)
    assert going_with(alone, "reverb") == ()
    assert len(removed_unit(alone, "reverb")) == 1


def test_a_unit_that_has_gone():
    with pytest.raises(CannotUse, match='no unit "fuzz"'):
        removed_unit(state(BOTH), "fuzz")
