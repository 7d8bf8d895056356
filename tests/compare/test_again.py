"""What has to be tested again."""

from tests.opening import open_text
from thruline.compare.again import Look, trials
from thruline.compare.facts import facts_of
from thruline.compare.memory import held, to_hold
from thruline.compare.work import work_order
from thruline.proof.case import Case
from thruline.proof.example_boards import (
    DELAY,
    DELAY_TO_REVERB,
    REVERB,
    TO_DELAY,
    a_cable,
    a_power_lead,
    a_preset,
    a_unit,
    board,
)

WANTS = a_preset(1, "One", 'delay = "11B"', 'reverb = "01"')
BOTH = (DELAY, REVERB, TO_DELAY, DELAY_TO_REVERB, WANTS)


def again(old, new):
    first, second = (Case(open_text(board(*pieces).rig).rig) for pieces in (old, new))
    before = facts_of(first.rig, first.board.routing, held(first))
    after = facts_of(second.rig, second.board.routing, to_hold(first, second))
    return trials(first, second, work_order(before, after))


def test_nothing_changed_nothing_to_test():
    assert again(BOTH, BOTH) == ()


def test_behind_a_cable_that_was_changed_everything_that_hears_over_it():
    crossed = DELAY_TO_REVERB.replace('"type-a"', '"type-b"')
    found = again((DELAY, REVERB, TO_DELAY, crossed, WANTS), BOTH)
    assert [(one.look, one.whose) for one in found] == [(Look.MIDI, "reverb"), (Look.PRESET, "1")]
    assert found[0].says == 'Pippin Reverb hears: press 1 "One", it shows 01'
    assert found[1].says == "press 1: look at Pippin Reverb"


def test_a_unit_that_was_set_and_presets_that_were_entered():
    moved = DELAY.replace("channel = 3", "channel = 5")
    found = again(BOTH, (moved, *BOTH[1:]))
    assert {(one.look, one.whose) for one in found} == {(Look.MIDI, "delay"), (Look.PRESET, "1")}
    assert found[-1].says == 'press 1 "One": it was entered anew'


def test_power_is_measured_before_a_unit_is_connected():
    supply = a_unit("supply", "elstar-supply")
    old = (*BOTH, supply, a_power_lead("supply.outlet-1", "delay.power-in"))
    new = (*BOTH, supply, a_power_lead("supply.outlet-2", "delay.power-in"))
    (found,) = again(old, new)
    assert found.look is Look.POWER
    assert "before Bramley Delay is connected: voltage (9 V)" in found.says


def test_power_is_measured_where_the_switch_of_an_outlet_is_set():
    lead = a_power_lead("supply.outlet-1", "delay.power-in")
    other = a_power_lead("supply.outlet-2", "reverb.power-in")
    old, new = (
        (*BOTH, a_unit("supply", "blenheim-supply", f'settings = {{ volts-1 = "{volts}" }}'), lead)
        for volts in ("9 V", "12 V")
    )
    assert again(old, old) == ()
    (found,) = again((*old, other), (*new, other))
    assert (found.look, found.whose) == (Look.POWER, "delay")


def test_sound_is_listened_through_after_a_cable_for_it():
    (found,) = again(BOTH, (*BOTH, a_cable("feet.output", "delay.input", ends="ts-6.35/ts-6.35")))
    assert found.look is Look.SOUND


def test_a_new_name_is_no_reason():
    assert again(BOTH, (*BOTH[:-1], WANTS.replace('"One"', '"Two"'))) == ()
